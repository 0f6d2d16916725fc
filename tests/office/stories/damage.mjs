// What came of the packets that were damaged in every way, which both verifiers have read meanwhile.
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { played } from "../stage/played.mjs";

chapter(
  "every damage and every forgery of the downloaded packet is named, by both verifiers alike",
  async () => {
    const said = await played.damaged;
    return `damaged and forged: ${said}`;
  },
);
