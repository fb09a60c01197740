import { analysePatient } from '@/lib/analysis/analyse-patient';
import { relativeTightness } from '@/lib/garments/tightness';
import type { LimbKind } from '@/lib/ladder/limb';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import type { Piece } from '@/lib/record/patient-record';
import { dayFromNumber, dayNumber } from '@/lib/units/calendar-day';
import type { LimbShape } from './dense-limb';
import { anatomyOf } from './limb-shape';
import { type Person, person, START } from './person';
import { seeded } from './random';
import { ordinaryVisit, tapedPerson, usualSetUp } from './taped-person';

/** Children with a piece cut on one of their visits, whose growth to come is known. */
export type OutlookScenario = {
  readonly name: string;
  readonly limb: LimbKind;
  readonly reductionPct: number;
  /** Days of the visits; the piece is cut from the one at `cutAt`. */
  readonly visitDays: readonly number[];
  readonly cutAt: number;
  readonly landmarks: 'all' | 'zero only';
};

/** How the outlook kept: shares of 1, and days. */
export type OutlookTally = {
  readonly children: number;
  /** How often the early day is the day of the newest ladder itself: such a bound is always kept and is left out of `earlyKept`. */
  readonly alreadyEarly: number;
  /** How often the piece still truly fitted until the early day; how often it was truly outgrown by the middle day. */
  readonly earlyKept: number;
  readonly outgrownByMiddle: number;
  /** Mean days from the newest ladder to the early day, and to the true day, where both lie within twelve months. */
  readonly earlyDays: number;
  readonly trueDays: number;
  /** How often the room proposed at the 90 % and the middle estimate was enough, at the place that asks for most. */
  readonly highEnough: number;
  readonly middleEnough: number;
};

const LIFE_DAYS = 90;
const LEAD_DAYS = 14;
const LOOKED = 365;

/** Runs a scenario on limbs of a pool, from a seed. */
export function outlookCohort(scenario: OutlookScenario, pool: readonly LimbShape[], children: number, seed: number): OutlookTally {
  const random = seeded(seed);
  const kept = { children: 0, asked: 0, early: 0, byMiddle: 0, bothKnown: 0, earlyDays: 0, trueDays: 0, rooms: 0, high: 0, middle: 0 };
  for (let child = 0; child < children; child++) {
    const someone = person('child', random.pick(pool), random);
    const visits = scenario.visitDays.map(ordinaryVisit);
    const setUp = usualSetUp(scenario.limb, 'in', scenario.landmarks, ['left']);
    const { record, zerosMm } = tapedPerson(someone, visits, setUp, random);
    const cutDay = START + (scenario.visitDays[scenario.cutAt] as number);
    const newestDay = START + Math.max(...scenario.visitDays);
    const piece = pieceOf(scenario, cutDay);
    const analysis = analysePatient({ ...record, pieces: [piece] }, DEFAULT_POLICY, dayFromNumber(newestDay));
    const [said] = analysis.pieces;
    if (!said || isNoAnswer(said.fit) || isNoAnswer(said.outgrow)) continue;
    const zero = zerosMm[scenario.cutAt]?.[0] ?? 0;
    const coveredMm = said.fit.cut.toMm - said.fit.cut.fromMm;
    const places = said.fit.places.map(({ placeMm }) => anatomyOf(someone.shape, (placeMm + zero) / someone.stretchOn(cutDay)));
    const truth = trulyOutgrown(someone, cutDay, newestDay, places, coveredMm, piece.reductionPct / 100);
    const early = said.outgrow.earlyDay ? dayNumber(said.outgrow.earlyDay) : undefined;
    const middle = said.outgrow.day ? dayNumber(said.outgrow.day) : undefined;
    kept.children += 1;
    if (early !== newestDay) kept.asked += 1;
    if (early !== newestDay && (truth ?? Number.POSITIVE_INFINITY) >= (early ?? newestDay + LOOKED - 35)) kept.early += 1;
    if (truth !== undefined && truth <= (middle ?? newestDay + LOOKED)) kept.byMiddle += 1;
    if (early !== undefined && truth !== undefined) {
      kept.bothKnown += 1;
      kept.earlyDays += early - newestDay;
      kept.trueDays += truth - newestDay;
    }
    if (isNoAnswer(said.room)) continue;
    const from = dayNumber(said.room.delivery);
    const to = dayNumber(said.room.endOfLife);
    const newestZero = zerosMm.at(-1)?.[0] ?? 0;
    const needed = said.room.places.map(({ placeMm }) => {
      const at = anatomyOf(someone.shape, (placeMm + newestZero) / someone.stretchOn(newestDay));
      const relaxed = girth(someone, at, newestDay) * (1 - piece.reductionPct / 100);
      return relaxed * (girth(someone, at, to) / girth(someone, at, from) - 1);
    });
    kept.rooms += 1;
    if (Math.max(...needed) <= said.room.highMm) kept.high += 1;
    if (Math.max(...needed) <= said.room.middleMm) kept.middle += 1;
  }
  return {
    children: kept.children,
    alreadyEarly: 1 - kept.asked / kept.children,
    earlyKept: kept.early / kept.asked,
    outgrownByMiddle: kept.byMiddle / kept.children,
    earlyDays: kept.earlyDays / kept.bothKnown,
    trueDays: kept.trueDays / kept.bothKnown,
    highEnough: kept.high / kept.rooms,
    middleEnough: kept.middle / kept.rooms,
  };
}

/** A piece of the scenario, cut on a day. */
export function pieceOf(scenario: OutlookScenario, cutDay: number): Piece {
  const [from, to] = scenario.limb === 'leg' ? (['ankle-crease', 'knee'] as const) : (['wrist-crease', 'elbow-crease'] as const);
  const end = scenario.landmarks === 'all' ? to : { text: '8', unit: 'in' as const, nm: 203_200_000 as never };
  return {
    piece: '1',
    limb: scenario.limb,
    side: 'left',
    covers: { from, to: end },
    cutFrom: dayFromNumber(cutDay),
    reductionPct: scenario.reductionPct,
    convention: 'C(1-r)',
    allowance: null,
    firstWorn: dayFromNumber(cutDay + LEAD_DAYS),
    lifeDays: LIFE_DAYS,
    leadDays: LEAD_DAYS,
    retired: null,
  };
}

function girth(someone: Person, place: number, day: number): number {
  return someone.girthOn('left', place, day);
}

/** The first day on or after the newest ladder on which the piece truly leaves the band at a rung, or has drifted by the clinic's share of the covered length. */
export function trulyOutgrown(
  someone: Person,
  cutDay: number,
  newestDay: number,
  places: readonly number[],
  coveredMm: number,
  reduction: number,
): number | undefined {
  const mostDriftMm = (DEFAULT_POLICY.lengthDriftPct / 100) * coveredMm;
  for (let day = newestDay; day <= newestDay + LOOKED; day++) {
    const drift = coveredMm * (someone.stretchOn(day) / someone.stretchOn(cutDay) - 1);
    const leaves = places.some((place) => {
      const tightness = relativeTightness(1 - reduction, girth(someone, place, day) / girth(someone, place, cutDay), 1);
      return tightness > DEFAULT_POLICY.bandHigh || tightness < DEFAULT_POLICY.bandLow;
    });
    if (leaves || drift > mostDriftMm) return day;
  }
  return undefined;
}
