import type { Side } from '@/lib/ladder/limb';
import type { PatientRecord, Visit } from '@/lib/record/patient-record';
import { dayFromNumber } from '@/lib/units/calendar-day';
import type { LengthUnit } from '@/lib/units/length';
import { type Person, SHORT_TERM_SD, START } from './person';
import type { Random } from './random';
import { type Taping, tapeLadder, typed } from './tape-ladder';

/** A visit as it truly was: who taped, how, and by how much each limb was swollen at a place. */
export type TrueVisit = {
  readonly day: number;
  readonly measurer: string;
  readonly tensionSd: number;
  readonly posture: string;
  readonly postureGirth: number;
  readonly movedZeroMm: number;
  readonly swelling: (side: Side, place: number) => number;
};

/** How the clinic tapes. */
export type SetUp = Pick<Taping, 'unit' | 'intervalMm' | 'direction' | 'landmarks'> & { readonly sides: readonly Side[] };

/** Ordinary errors of taping: a girth 0.3 cm, a zero or landmark 0.5 cm (SD). Source: engine section 3. */
export const ORDINARY = { readingSdMm: 3, placementSdMm: 5 } as const;

/** An ordinary visit by the same hand, so many days after the start. */
export function ordinaryVisit(days: number): TrueVisit {
  return {
    day: START + days,
    measurer: 'A',
    tensionSd: 0.004,
    posture: 'lying',
    postureGirth: 1,
    movedZeroMm: 0,
    swelling: () => 0,
  };
}

/** The record of a person's visits, beside the true place of each ladder's zero (by visit, then side). */
export type TapedPerson = { readonly record: PatientRecord; readonly zerosMm: readonly (readonly number[])[] };

/** A made-up person as the record knows them. The left limb is the affected one; the first visit's tape is as true as the others'. */
export function tapedPerson(someone: Person, visits: readonly TrueVisit[], setUp: SetUp, random: Random): TapedPerson {
  const zerosMm: number[][] = [];
  const taped = visits.map((visit, index): Visit => {
    const tension = random.normal(visit.tensionSd);
    const shortTerm = Math.exp(random.normal(SHORT_TERM_SD));
    const body = someone.bodyOn(visit.day);
    const ladders = setUp.sides.map((side) =>
      tapeLadder(
        {
          shape: someone.shape,
          stretch: someone.stretchOn(visit.day),
          factor: (place) => someone.girthOn(side, place, visit.day) * (1 + visit.swelling(side, place)) * visit.postureGirth * shortTerm,
        },
        side,
        { ...setUp, ...ORDINARY, tension, movedZeroMm: index > 0 && side === 'left' ? visit.movedZeroMm : 0 },
        random,
      ),
    );
    zerosMm.push(ladders.map((one) => one.zeroMm));
    return {
      day: dayFromNumber(visit.day),
      time: '10:00',
      posture: visit.posture,
      measurer: visit.measurer,
      height: typed(body.heightMm + random.normal(3), 'cm', false),
      weight: weighed(body.weightKg),
      note: null,
      ladders: ladders.map((one) => one.ladder),
    };
  });
  const { born, sex, shape } = someone;
  const record = { reference: 'made up', born, sex, affected: [{ limb: shape.limb, side: 'left' as const }], visits: taped, pieces: [] };
  return { record, zerosMm };
}

/** A weight to 0.1 kg. */
export function weighed(kg: number): Visit['weight'] {
  const tenths = Math.round(kg * 10);
  return { text: String(tenths / 10), unit: 'kg', ng: tenths * 1e11 };
}

/** The usual set-up of a limb: legs every 4 cm or 1½ in, arms every 3 cm or 1 in. */
export function usualSetUp(limb: 'leg' | 'arm', unit: LengthUnit, landmarks: SetUp['landmarks'], sides: SetUp['sides']): SetUp {
  const intervalMm = unit === 'in' ? 38.1 : limb === 'leg' ? 40 : 30;
  return { unit, intervalMm, direction: 'up', landmarks, sides };
}
