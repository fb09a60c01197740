import type { AnalysedLimb, PatientAnalysis } from '../../analysis/analyse-patient';
import { bodyChange, expectedGirthAt } from '../../growth/body-change';
import { girthAt } from '../../ladder/girth-at';
import { type LimbKind, limbInWords } from '../../ladder/limb';
import type { LimitName } from '../../limits/limits';
import type { Policy } from '../../limits/policy';
import { isNoAnswer } from '../../outcome';
import type { LimbSide, PatientRecord } from '../../record/patient-record';
import { anatomyOf } from '../../trend/anatomy-of';
import { limbChange, samePlace } from '../../trend/limb-change';
import type { SeriesVisit } from '../../trend/series-visit';
import { withoutDoubtfulRungs } from '../../trend/without-doubtful-rungs';
import { type CalendarDay, daysBetween, showDay } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
import { showLengthWithUnit } from '../../units/show-length';
import type { Rule } from '../prompt';

/** Parts of a limb, each with its limit: anatomical places from the distal landmark (0) by the middle one (1) to the proximal (2). */
const PARTS: readonly {
  readonly limb: LimbKind;
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly limit: LimitName;
}[] = [
  { limb: 'leg', name: 'calf', from: 0.45, to: 0.95, limit: 'calfGainMm' },
  { limb: 'leg', name: 'thigh', from: 1.1, to: 2, limit: 'thighGainMm' },
  { limb: 'arm', name: 'arm', from: 0, to: 2, limit: 'armGainMm' },
];

/** A gain of one part of a limb between two visits, mm, beyond what the other limb did or, where that was not measured, the body explains. */
export type OneSidedGain = LimbSide & {
  readonly part: string;
  readonly limit: LimitName;
  readonly mm: number;
  readonly otherMm: number | undefined;
  readonly beyondMm: number;
  readonly days: number;
  readonly day: CalendarDay;
  readonly since: CalendarDay;
  readonly unit: LengthUnit;
};

/**
 * The largest one-sided gain of each limb at its newest ladder that reaches the limit of its part: against the visit before whatever the
 * gap, and against any visit within the clinic's days. Doubtful rungs count in neither.
 *
 * Shape: an analysis; at most one gain a limb. Example: a calf 4 cm larger after twelve weeks, the other one as it was: 40 mm.
 */
export function oneSidedGains({ limbs, policy }: Pick<PatientAnalysis, 'limbs' | 'policy'>): OneSidedGain[] {
  return limbs.flatMap((limb) => {
    const other = limbs.find((one) => one.series.limb === limb.series.limb && one.series.side !== limb.series.side);
    const later = limb.series.visits.at(-1);
    if (!later) return [];
    const before = limb.series.visits.slice(0, -1);
    const compared = before.filter(
      (one, index) => index === before.length - 1 || daysBetween(one.visit.day, later.visit.day) <= policy.calfGainDays,
    );
    const gains = compared.flatMap((earlier) => gainsBetween(limb, other, earlier, later, policy));
    return gains
      .filter((one) => one.beyondMm >= policy[one.limit])
      .sort((one, next) => next.beyondMm - one.beyondMm)
      .slice(0, 1);
  });
}

/** What the tape saw on a limb, in words, for the card that asks about it. */
export function gainInWords({ part, mm, since, otherMm, unit }: OneSidedGain): string {
  const other =
    otherMm === undefined ? 'the other one was not measured on both days' : `the other one changed by ${showLengthWithUnit(otherMm, unit)}`;
  return `${part} ${showLengthWithUnit(mm, unit)} larger than on ${showDay(since)}; ${other}`;
}

/**
 * New one-sided gain of a leg or an arm → the prescriber. Within the clinic's days it is told the same day; over a longer gap it is asked
 * about first, onset, pain, warmth and colour, until the card of that limb was answered for this visit.
 */
export const oneSidedGain: Rule = {
  id: 'one-sided-gain',
  version: 1,
  apply: (analysis) =>
    oneSidedGains(analysis).flatMap((gain) => {
      const { limb, side, part, days, day, since, unit } = gain;
      const soon = days <= analysis.policy.calfGainDays;
      if (!soon && wasAsked(analysis.record, gain)) return [];
      const larger = showLengthWithUnit(gain.mm, unit);
      const zero = analysis.limbs.find((one) => one.series.limb === limb && one.series.side === side)?.visits.at(-1)?.sinceLast;
      const moved = zero && !isNoAnswer(zero) && zero.change.shift?.finding;
      const where = part === limb ? limbInWords(limb, side) : `${side} ${part}`;
      return [
        {
          action: 'refer' as const,
          due: day,
          title: soon
            ? `The ${where} has become larger in ${days === 1 ? '1 day' : `${days} days`}. Tell the prescriber today.`
            : `The ${where} is ${larger} larger than at the visit before. Ask today when it began, and about pain, warmth and colour.`,
          facts: [
            `Girth ${larger} larger than on ${showDay(since)}${gain.otherMm === undefined ? '' : `; the other ${part} changed by ${showLengthWithUnit(gain.otherMm, unit)}`}.`,
            ...(soon
              ? []
              : ['Began within days, or with pain, warmth or another colour: same day, garment off. Answer the card “New swelling”.']),
            'Same-day medical assessment by your local protocol. The size is one sign among others.',
            ...(moved ? ['The zero of this ladder is in doubt as well. Do not wait until it was measured again.'] : []),
          ],
          missing: gain.otherMm === undefined ? [`The other ${limb} was not measured on both days.`] : [],
          limits: [gain.limit, 'calfGainDays' as const],
          cause: `red flag: ${side} ${part}`,
          about: { limb: { limb, side } },
          inputs: `${day} ${since} ${gain.mm.toFixed(1)}`,
        },
      ];
    }),
};

function wasAsked({ cautions }: PatientRecord, { limb, side, day }: OneSidedGain): boolean {
  const card = cautions?.find((one) => one.card === `new-swelling-${side}-${limb}`);
  return card?.answer === 'absent' && card.day >= day;
}

function gainsBetween(
  limb: AnalysedLimb,
  other: AnalysedLimb | undefined,
  earlier: SeriesVisit,
  later: SeriesVisit,
  policy: Policy,
): OneSidedGain[] {
  const days = daysBetween(earlier.visit.day, later.visit.day);
  const [otherBefore, otherAfter] = [earlier, later].map((at) => other?.series.visits.find((one) => one.visit === at.visit));
  const of = { days, day: later.visit.day, since: earlier.visit.day, unit: later.ladder.unit };
  return PARTS.filter((part) => part.limb === limb.series.limb).flatMap((part): OneSidedGain[] => {
    const gain = largestGain(earlier, later, part, policy);
    if (!gain) return [];
    const otherMm = otherBefore && otherAfter ? largestGain(otherBefore, otherAfter, part, policy)?.mm : undefined;
    const { limb: kind, side } = limb.series;
    const beyondMm = gain.mm - (otherMm ?? gain.expectedMm);
    return [{ limb: kind, side, part: part.name, limit: part.limit, mm: gain.mm, otherMm, beyondMm, ...of }];
  });
}

/** Largest gain of girth along a part between two ladders of one limb, mm, and what height and weight explain of it there. */
function largestGain(
  earlierFull: SeriesVisit,
  laterFull: SeriesVisit,
  { limb, from, to }: (typeof PARTS)[number],
  policy: Policy,
): { readonly mm: number; readonly expectedMm: number } | undefined {
  const [earlier, later] = [withoutDoubtfulRungs(earlierFull), withoutDoubtfulRungs(laterFull)];
  const change = limbChange(earlier, later, limb, policy);
  if (isNoAnswer(change)) return undefined;
  const place = anatomyOf(earlier);
  const body = bodyChange(earlier.body, later.body, limb, later.growing, daysBetween(earlier.visit.day, later.visit.day));
  const { placesMm, girthsMm } = earlier.placed.line;
  const gains = placesMm.flatMap((placeMm, rung) => {
    const now = girthAt(later.placed.line.placesMm, later.placed.line.girthsMm, samePlace(change, placeMm));
    const at = place(placeMm);
    const before = girthsMm[rung] as number;
    if (now === undefined || at < from || at > to) return [];
    return [{ mm: now - before, expectedMm: before * (expectedGirthAt(body, limb, later.growing, at) - 1) }];
  });
  return gains.sort((one, next) => next.mm - one.mm)[0];
}
