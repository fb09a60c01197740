import type { Ladder, LandmarkReading, Rung } from '../ladder/ladder';
import { type LandmarkId, LIMBS } from '../ladder/limb';
import type { CsvRow } from './csv-table';
import { refuseCell } from './read-cells';

/** A ladder while its rows are read: what it has so far, and the row it began with, which a refusal of the whole names. */
export type LadderDraft = Omit<{ -readonly [key in keyof Ladder]: Ladder[key] }, 'rungs' | 'landmarks'> & {
  rungs: Rung[];
  landmarks: LandmarkReading[];
  firstRow: CsvRow;
};

/** The ladder of its rows: rungs in order, direction by its zero and landmarks. Refuses landmarks that do not lie as they do on the limb. */
export function ladderFrom({ firstRow, ...draft }: LadderDraft): Ladder {
  const order = LIMBS[draft.limb].landmarks;
  const rank = order.indexOf(draft.zero as LandmarkId);
  const ranks = draft.landmarks.map(({ landmark }) => order.indexOf(landmark));
  const down = rank === 2 || (rank !== 0 && ranks.some((one) => (rank < 0 ? one === 0 : one < rank)));
  const beyond = [...draft.landmarks]
    .sort((one, other) => one.distance.nm - other.distance.nm)
    .map(({ landmark }) => order.indexOf(landmark));
  const sorted = [...beyond].sort((one, other) => (down ? other - one : one - other));
  const wrongSide = rank >= 0 && ranks.some((one) => (down ? one > rank : one < rank));
  if (wrongSide || beyond.some((one, index) => one !== sorted[index])) {
    refuseCell(firstRow, 'landmark', 'The landmarks of this ladder do not lie in the order they have on the limb.');
  }
  const rungs = [...draft.rungs].sort((one, other) => one.distance.nm - other.distance.nm);
  return { ...draft, direction: down ? 'down' : 'up', rungs };
}
