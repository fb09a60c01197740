import type { KeptRecord } from '@/db/patients/records';
import { type CutLadder, cutKey } from '@/lib/forms/read-cut';
import type { Ladder } from '@/lib/ladder/ladder';
import { LIMBS, limbInWords, placeInWords } from '@/lib/ladder/limb';
import { PART_PLACES, partOfSideInWords } from '@/lib/parts/measure';
import { isAffected, limbOf } from '@/lib/record/patient-record';
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
      key: cutKey(visit.visitId, { limb, side }, false),
      visitId: visit.visitId,
      day: visit.day,
      limb,
      side,
      unit,
    })),
  );
}

const PLACE_OF = { hand: 'arm', foot: 'leg', trunk: 'trunk', head: 'head' } as const;

/** The named measures of every visit that a piece made to them alone can be cut from, part by part, the newest first. */
export function cutMeasures(record: KeptRecord): CutLadder[] {
  return [...record.visits].reverse().flatMap((visit) =>
    PART_PLACES.flatMap(({ part, side }): CutLadder[] => {
      const first =
        part !== 'residual-limb' && visit.measures?.find((one) => one.part === part && (side === 'middle' || one.side === side));
      if (!first) return [];
      const place = { limb: PLACE_OF[part], side };
      const { visitId, day } = visit;
      return [{ ...place, key: cutKey(visitId, place, true), visitId, day, unit: first.length.unit, madeTo: part }];
    }),
  );
}

function byNeed(record: KeptRecord) {
  const rank = ({ limb, side }: Pick<Ladder, 'limb' | 'side'>): number => (isAffected(record, limb, side) ? 0 : 1);
  return (one: Ladder, other: Ladder): number => rank(one) - rank(other);
}

/** The same as choices of a form: words for the ladder or the measures, and the landmarks its limb can be covered to. */
export function ladderChoices(ladders: readonly CutLadder[]): LadderChoice[] {
  return ladders.map(({ key, day, madeTo, ...place }) => {
    const on = madeTo ? undefined : limbOf(place);
    return {
      key,
      words: `${showDay(day)}, ${madeTo ? `${partOfSideInWords(madeTo, place.side)}, named measures` : limbInWords(place.limb, place.side)}`,
      ends: on ? LIMBS[on.limb].landmarks.map(placeInWords) : [],
    };
  });
}
