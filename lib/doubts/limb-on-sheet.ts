import type { LastLadder } from '../growth/expected-ladder';
import type { Ladder } from '../ladder/ladder';

/** One limb on the sheet: what is typed so far, the places of all its rows (mm from zero), and its last ladder if there is one. */
export type LimbOnSheet = {
  readonly ladder: Ladder;
  readonly rowsMm: readonly number[];
  readonly affected: boolean;
  readonly last: LastLadder | undefined;
};
