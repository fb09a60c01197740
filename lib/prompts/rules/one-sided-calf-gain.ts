import type { AnalysedLimb } from '../../analysis/analyse-patient';
import { girthAt } from '../../ladder/girth-at';
import { isNoAnswer } from '../../outcome';
import type { Policy } from '../../record/policy';
import { anatomyOf } from '../../trend/anatomy-of';
import { limbChange, samePlace } from '../../trend/limb-change';
import type { SeriesVisit } from '../../trend/limb-series';
import { type CalendarDay, daysBetween, showDay } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
import { showLengthWithUnit } from '../../units/show-length';
import type { Rule } from '../prompt';

/** The calf lies between these anatomical places of the leg (0 ankle crease, 1 knee). */
const CALF = { from: 0.45, to: 0.95 } as const;

/**
 * New one-sided calf gain → tell the prescriber the same day. Larger by the clinic's limit (3 cm) than at any visit within its days, beyond
 * what the other calf did; against the patient's own earlier ladder, because a swollen leg is unequal already.
 */
export const oneSidedCalfGain: Rule = {
  id: 'one-sided-calf-gain',
  version: 2,
  apply: ({ limbs, policy }) =>
    limbs.flatMap((limb) => {
      const other = limbs.find((one) => one.series.limb === 'leg' && one.series.side !== limb.series.side);
      const gain = largestGain(limb, other, policy);
      if (!gain || gain.beyondMm < policy.calfGainMm) return [];
      const { unit } = gain;
      const zero = limb.visits.at(-1)?.sinceLast;
      const moved = zero && !isNoAnswer(zero) && zero.change.shift?.finding;
      return [
        {
          action: 'refer' as const,
          due: gain.day,
          title: `The ${limb.series.side} calf has become larger in ${gain.days === 1 ? '1 day' : `${gain.days} days`}. Tell the prescriber today.`,
          facts: [
            `${showLengthWithUnit(gain.mm, unit)} larger than on ${showDay(gain.since)}${gain.otherMm === undefined ? '' : `; the other calf changed by ${showLengthWithUnit(gain.otherMm, unit)}`}.`,
            'Same-day medical assessment by your local protocol.',
            ...(moved ? ['The zero of this ladder is in doubt as well. Do not wait for a second taping.'] : []),
          ],
          missing: gain.otherMm === undefined ? ['The other leg was not taped on both days.'] : [],
          limits: ['calfGainMm' as const, 'calfGainDays' as const],
          cause: `red flag: ${limb.series.side} calf`,
          about: { limb: { limb: 'leg' as const, side: limb.series.side } },
          inputs: `${gain.day} ${gain.since} ${gain.mm.toFixed(1)}`,
        },
      ];
    }),
};

type Gain = {
  readonly mm: number;
  readonly otherMm: number | undefined;
  readonly beyondMm: number;
  readonly days: number;
  readonly day: CalendarDay;
  readonly since: CalendarDay;
  readonly unit: LengthUnit;
};

/** The largest gain of the newest ladder over those of the last days, beyond what the other calf did between the same two visits. */
function largestGain(limb: AnalysedLimb, other: AnalysedLimb | undefined, policy: Policy): Gain | undefined {
  const later = limb.series.visits.at(-1);
  if (limb.series.limb !== 'leg' || !later) return undefined;
  const gains = limb.series.visits.slice(0, -1).flatMap((earlier): Gain[] => {
    const days = daysBetween(earlier.visit.day, later.visit.day);
    const mm = days <= policy.calfGainDays ? calfGainMm(earlier, later, policy) : undefined;
    if (mm === undefined) return [];
    const otherMm = otherGainMm(earlier, later, other, policy);
    const of = { days, day: later.visit.day, since: earlier.visit.day, unit: later.ladder.unit };
    return [{ mm, otherMm, beyondMm: mm - (otherMm ?? 0), ...of }];
  });
  return gains.sort((one, next) => next.beyondMm - one.beyondMm)[0];
}

function otherGainMm(earlier: SeriesVisit, later: SeriesVisit, other: AnalysedLimb | undefined, policy: Policy): number | undefined {
  const before = other?.series.visits.find((one) => one.visit === earlier.visit);
  const after = other?.series.visits.find((one) => one.visit === later.visit);
  return before && after ? calfGainMm(before, after, policy) : undefined;
}

/** Largest gain of girth along the calf between two ladders of one leg, mm. */
function calfGainMm(earlier: SeriesVisit, later: SeriesVisit, policy: Policy): number | undefined {
  const change = limbChange(earlier, later, 'leg', policy);
  if (isNoAnswer(change)) return undefined;
  const place = anatomyOf(earlier);
  const gains = earlier.placed.line.placesMm.flatMap((placeMm, rung) => {
    const now = girthAt(later.placed.line.placesMm, later.placed.line.girthsMm, samePlace(change, placeMm));
    const at = place(placeMm);
    return now === undefined || at < CALF.from || at > CALF.to ? [] : [now - (earlier.placed.line.girthsMm[rung] as number)];
  });
  return gains.length > 0 ? Math.max(...gains) : undefined;
}
