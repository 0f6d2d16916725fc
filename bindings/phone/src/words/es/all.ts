/**
 * The Spanish words the phone itself says, from one file a topic. The English table says which keys there
 * are.
 */
import type { Key } from "../en/all";
import { fittings } from "./fittings";
import { measuring } from "./measuring";
import { phone } from "./phone";
import { procedure } from "./procedure";
import { protection } from "./protection";
import { record } from "./record";
import { screens } from "./screens";
import { statements } from "./statements";

export const es: Record<Key, string> = {
  ...fittings,
  ...procedure,
  ...measuring,
  ...statements,
  ...record,
  ...screens,
  ...phone,
  ...protection,
};
