import { ageInYears } from '../units/age';
import { addDays, daysBetween, showDay } from '../units/calendar-day';
import { kg } from '../units/mass';
import type { CautionAbout, CautionCard } from './caution-card';
import { GROWTH_WATCH } from './growth-watch';
import { legGarment } from './history-cards';

/** Until this age a pause in height is asked about; later growth may have ended. Common practice: girls are nearly grown at 15. */
const STILL_GROWING_YEARS = 15;

const eachVisit = ['asked at each visit'];

const visitCard = (card: Omit<CautionCard, 'version' | 'asked' | 'limits'> & Partial<Pick<CautionCard, 'limits'>>): CautionCard => ({
  limits: [],
  ...card,
  version: 1,
  asked: 'each visit',
});

/** Cards that are asked anew at each visit. */
export const VISIT_CARDS: readonly CautionCard[] = [
  visitCard({
    id: 'escalate-now',
    title: 'Signs to escalate now',
    shown: () => eachVisit,
    question: () =>
      'Is the person acutely unwell with fever, confusion or mottled skin; is a limb pale, cold and painful at rest; or does a wound grow, bleed or look unusual?',
    ifPresent: 'Escalate now, by the emergency route of your local protocol.',
    kind: 'published',
    source: 'Red flags of the National Wound Care Strategy Programme, England, as printed in 2021.',
  }),
  visitCard({
    id: 'one-sided-swelling',
    title: 'New swelling of one calf',
    shown: (about) => (legGarment(about) ? eachVisit : undefined),
    question: ({ policy }) =>
      `Is one calf newly swollen, painful or warm: ${policy.calfGainMm / 10} cm or more larger than the other and than it was at the last visits?`,
    ifPresent: 'Same-day medical assessment. Give the family no name for it.',
    limits: ['calfGainMm', 'calfGainDays'],
    kind: 'published',
    source: 'Calf 3 cm larger than the other, item of the two-level score in the NICE guideline; here new against the patient’s own limb.',
  }),
  visitCard({
    id: 'sudden-gain',
    title: 'Fast weight gain, both legs up',
    shown: (about) => suddenGain(about) ?? eachVisit,
    question: ({ policy }) =>
      `Has weight risen by more than ${policy.suddenGainKg} kg within ${policy.suddenGainDays} days, or have both legs swollen together?`,
    ifPresent: 'Sudden gain can mean fluid. Contact the medical team today.',
    limits: ['suddenGainKg', 'suddenGainDays'],
    kind: 'published',
    source: 'More than 2 kg in 3 days: advice of the European Society of Cardiology (secondary account).',
  }),
  visitCard({
    id: 'hot-red-skin',
    title: 'Redness, heat, fever',
    shown: () => eachVisit,
    question: () => 'Is the skin red, hot, or is redness spreading; is there fever or a flu-like feeling?',
    ifPresent: 'Garment off and medical help now. Start again when the team says so.',
    kind: 'published',
    source: 'Patient leaflets of public hospitals; red flags of the National Wound Care Strategy Programme, England.',
  }),
  visitCard({
    id: 'numb-or-cold',
    title: 'Numb, tingling, blue, white or cold',
    shown: () => eachVisit,
    question: () => 'Are fingers or toes numb, tingling, blue, white or cold, or is there new pain under the garment?',
    ifPresent: 'Take the garment off and call. If colour or feeling does not come back quickly: emergency care.',
    kind: 'published',
    source: 'Patient leaflets of public children’s and burns hospitals.',
  }),
  visitCard({
    id: 'broken-skin',
    title: 'Fragile, open or leaking skin',
    shown: () => eachVisit,
    question: () => 'Is skin under the garment open, leaking, or so thin that it may tear?',
    ifPresent: 'No garment over this area until it is reviewed.',
    kind: 'published',
    source: 'Patient leaflets of public hospitals.',
  }),
  visitCard({
    id: 'blisters',
    title: 'Blisters while wear builds up',
    shown: wearingIn,
    question: () => 'Are there blisters where the new garment lies?',
    ifPresent: 'Common on new skin. Stop wearing, call, and start again when they are closed.',
    limits: ['wearInDays'],
    kind: 'published',
    source: 'Leaflet of a university burns service: blisters in the first weeks.',
  }),
  visitCard({
    id: 'folded-garment',
    title: 'Rolled, folded or layered garment',
    shown: ({ record, today }) =>
      record.pieces.some((piece) => piece.firstWorn && piece.firstWorn <= today && (piece.retired === null || piece.retired > today))
        ? eachVisit
        : undefined,
    question: () => 'Does a garment roll, fold or bunch, or do two lie over each other?',
    ifPresent: 'A fold doubles the pressure. Pieces overlap by 5 cm or more with the outer one looser; alter the edge.',
    kind: 'published',
    source: 'Best Practice for the Management of Lymphoedema 2006 (no folding down); overlap from a published leaflet.',
  }),
  visitCard({
    id: 'unexplained-loss',
    title: 'Weight lost, or a child who stopped growing',
    shown: lossOrStall,
    question: () => 'Is the weight lost, or the pause in growth, unexplained?',
    ifPresent: 'Unexplained change. Tell the prescriber.',
    limits: ['weightLookPct', 'stalledGrowthDays'],
    kind: 'clinic default',
    source: 'Clinic default: a fall by the clinic’s weight limit between two weighings, or no gain of height in half a year.',
  }),
  GROWTH_WATCH,
];

/** Weight up by more than the limit within its days at the newest weighing, in words. */
function suddenGain({ record, policy }: CautionAbout): string[] | undefined {
  const weighed = record.visits.flatMap(({ day, weight }) => (weight ? [{ day, kg: kg(weight) }] : []));
  const newest = weighed.at(-1);
  if (!newest) return undefined;
  const before = weighed
    .slice(0, -1)
    .find((one) => daysBetween(one.day, newest.day) <= policy.suddenGainDays && newest.kg - one.kg > policy.suddenGainKg);
  return before
    ? [`weight up by ${(newest.kg - before.kg).toFixed(1)} kg from ${showDay(before.day)} to ${showDay(newest.day)}`]
    : undefined;
}

function wearingIn({ record, policy, today }: CautionAbout): string[] | undefined {
  const named = record.pieces.flatMap(({ piece, firstWorn, wearIn, retired }) => {
    if (!firstWorn || firstWorn > today || (retired !== null && retired <= today)) return [];
    return today <= addDays(firstWorn, wearIn?.days ?? policy.wearInDays) ? [`piece ${piece} first worn on ${showDay(firstWorn)}`] : [];
  });
  return named.length > 0 ? named : undefined;
}

function lossOrStall({ record, policy, today }: CautionAbout): string[] | undefined {
  const weights = record.visits.flatMap(({ day, weight }) => (weight ? [{ day, kg: kg(weight) }] : [])).slice(-2);
  const [before, now] = weights;
  const lost = before && now && now.kg <= before.kg * (1 - policy.weightLookPct / 100);
  const heights = record.visits.flatMap(({ day, height }) => (height ? [{ day, mm: height.nm / 1e6 }] : []));
  const newest = heights.at(-1);
  const earlier = newest && heights.findLast((one) => daysBetween(one.day, newest.day) >= policy.stalledGrowthDays);
  const child = ageInYears(record.born, today) < STILL_GROWING_YEARS;
  const stalled = child && newest && earlier && newest.mm <= earlier.mm;
  const reasons = [
    ...(lost ? [`weight ${(100 * (1 - now.kg / before.kg)).toFixed(0)} % less on ${showDay(now.day)} than on ${showDay(before.day)}`] : []),
    ...(stalled ? [`no gain of height from ${showDay(earlier.day)} to ${showDay(newest.day)}`] : []),
  ];
  return reasons.length > 0 ? reasons : undefined;
}
