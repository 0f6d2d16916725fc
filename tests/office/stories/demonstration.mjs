// What the other stories begin with.
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { playsDemonstration } from "../stage/played.mjs";

chapter("the demonstration is played, and two people differ about a pressure", playsDemonstration);
