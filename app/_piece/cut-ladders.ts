import type { KeptRecord } from '@/db/patients/records';
import type { CutLadder } from '@/lib/forms/read-cut';
import type { Ladder } from '@/lib/ladder/ladder';
import { LIMBS, limbInWords, placeInWords } from '@/lib/ladder/limb';
import { isAffected } from '@/lib/record/patient-record';
import { showDay } from '@/lib/units/calendar-day';

/** A ladder as a form offers it. */
export type LadderChoice = {
  readonly key: string;
  readonly words: string;
  /** The landmarks it can be covered to, in words. */
  readonly ends: readonly string[];
};

/** Every ladder of a patient that a piece can be cut from, the newest first; of one visit the affected limbs first, as a form offers the first. */
export function cutLadders(record: KeptRecord): CutLadder[] {
  return [...record.visits].reverse().flatMap((visit) =>
    visit.ladders.toSorted(byNeed(record)).map(({ limb, side, unit }) => ({
      key: `${visit.visitId} ${side} ${limb}`,
      visitId: visit.visitId,
      day: visit.day,
      limb,
      side,
      unit,
    })),
  );
}

function byNeed(record: KeptRecord) {
  const rank = ({ limb, side }: Pick<Ladder, 'limb' | 'side'>): number => (isAffected(record, limb, side) ? 0 : 1);
  return (one: Ladder, other: Ladder): number => rank(one) - rank(other);
}

/** The same as choices of a form: words for the ladder, and the landmarks its limb can be covered to. */
export function ladderChoices(ladders: readonly CutLadder[]): LadderChoice[] {
  return ladders.map(({ key, day, limb, side }) => ({
    key,
    words: `${showDay(day)}, ${limbInWords(limb, side)}`,
    ends: LIMBS[limb].landmarks.map(placeInWords),
  }));
}
