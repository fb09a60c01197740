import type { KeptRecord } from '@/db/records';
import { LIMBS, limbInWords, placeInWords } from '@/lib/ladder/limb';
import type { CutLadder } from '@/lib/record/read-cut';
import { showDay } from '@/lib/units/calendar-day';
import type { LadderChoice } from './piece-form';

/** Every ladder of a patient that a piece can be cut from, the newest first. */
export function cutLadders(record: KeptRecord): CutLadder[] {
  return [...record.visits].reverse().flatMap((visit) =>
    visit.ladders.map(({ limb, side, unit }) => ({
      key: `${visit.visitId} ${side} ${limb}`,
      visitId: visit.visitId,
      day: visit.day,
      limb,
      side,
      unit,
    })),
  );
}

/** The same as choices of a form: words for the ladder, and the landmarks its limb can be covered to. */
export function ladderChoices(ladders: readonly CutLadder[]): LadderChoice[] {
  return ladders.map(({ key, day, limb, side }) => ({
    key,
    words: `${showDay(day)}, ${limbInWords(limb, side)}`,
    ends: LIMBS[limb].landmarks.map(placeInWords),
  }));
}
