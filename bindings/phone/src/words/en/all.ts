/** The English words the phone itself says, from one file a topic. Every other language has the same keys. */
import { fittings } from "./fittings";
import { measuring } from "./measuring";
import { phone } from "./phone";
import { procedure } from "./procedure";
import { protection } from "./protection";
import { record } from "./record";
import { screens } from "./screens";
import { statements } from "./statements";

export const en = {
  ...fittings,
  ...procedure,
  ...measuring,
  ...statements,
  ...record,
  ...screens,
  ...phone,
  ...protection,
};

/** The name of a word, the same in every language. */
export type Key = keyof typeof en;
