import { ageInYears } from '../units/age';
import { addDays, daysBetween, showDay } from '../units/calendar-day';
import { kg } from '../units/mass';
import type { CautionAbout, CautionCard } from './caution-card';
import { piecesAbout } from './treated-limbs';

/** Until this age a pause in height is asked about; later growth may have ended. Common practice: girls are nearly grown at 15. */
const STILL_GROWING_YEARS = 15;

const eachVisit = ['asked at each visit and hand-over'];
const LEAFLETS = 'Patient leaflets of public hospitals.';

type Part = Omit<CautionCard, 'version' | 'eachVisit' | 'lasts' | 'limits'> & Partial<Pick<CautionCard, 'limits' | 'version'>>;
const visitCard = (card: Part): CautionCard => ({ limits: [], version: 1, ...card, eachVisit: true, lasts: 'visitAnswerDays' });

/** Cards that are asked anew at each visit and each hand-over. */
export const VISIT_CARDS: readonly CautionCard[] = [
  visitCard({
    id: 'escalate-now',
    version: 2,
    title: 'Signs to escalate now',
    says: 'emergency',
    shown: () => eachVisit,
    question: () =>
      'Is the person breathless, fainting, coughing blood or in chest pain; acutely unwell with fever, confusion or mottled skin; is a limb pale, cold and painful at rest; or does a wound grow, bleed or look unusual?',
    ifPresent: 'Garment off. Escalate now, by the emergency route of your local protocol.',
    kind: 'published',
    source:
      'Red flags of the National Wound Care Strategy Programme, England, as printed in 2021; breath, chest pain, blood and fainting: usual emergency advice.',
  }),
  visitCard({
    id: 'sudden-gain',
    version: 2,
    title: 'Sudden weight gain, breath, both legs up',
    says: 'same day',
    shown: (about) => [...(weightUp(about) ?? []), ...eachVisit],
    question: ({ policy }) =>
      `Has weight, shoes, rings or belt gone up suddenly, by more than ${policy.suddenGainKg} kg within ${policy.suddenGainDays} days or so; is it hard to breathe lying flat; or have both legs swollen together?`,
    ifPresent: 'Sudden gain can mean fluid. Contact the medical team today.',
    limits: ['suddenGainKg', 'suddenGainDays'],
    kind: 'published',
    source:
      'More than 2 kg in 3 days: advice of the European Society of Cardiology (secondary account). Two weighings within three days seldom exist, so it is asked.',
  }),
  visitCard({
    id: 'hot-red-skin',
    version: 2,
    title: 'Redness, heat, fever',
    says: 'same day',
    shown: () => eachVisit,
    question: () =>
      'Is the skin red, hot, or is redness spreading; is there fever or a flu-like feeling; or was there such an attack since the last visit?',
    ifPresent:
      'Medical help now. Whether the garment stays on when comfortable or comes off is your local rule: sources differ. Measure again afterwards; two attacks or more a year: ask the prescriber.',
    boxes: () => [{ name: 'attacks', label: 'Attacks since the last visit', kind: 'number', unit: '', least: 0, most: 50 }],
    kind: 'published',
    source:
      'Red flags of the National Wound Care Strategy Programme, England; garment on if comfortable (a public cancer agency) or off until bearable (a British consensus, from memory).',
  }),
  visitCard({
    id: 'numb-or-cold',
    title: 'Numb, tingling, blue, white or cold',
    says: 'stop',
    shown: () => eachVisit,
    question: () => 'Are fingers or toes numb, tingling, blue, white or cold, or is there new pain under the garment?',
    ifPresent: 'Take the garment off and call. If colour or feeling does not come back quickly: emergency care.',
    kind: 'published',
    source: 'Patient leaflets of public children’s and burns hospitals.',
  }),
  visitCard({
    id: 'broken-skin',
    version: 2,
    title: 'Fragile, open or leaking skin',
    says: 'stop',
    shown: () => eachVisit,
    question: () => 'Is skin under the garment open, leaking, or so thin that it may tear?',
    ifPresent: 'No garment over this area until it is reviewed.',
    boxes: () => [{ name: 'where', label: 'Where, how large, and until when', kind: 'text' }],
    kind: 'published',
    source: `Fragile skin, dermatitis, recent graft: no compression (UK formulary). ${LEAFLETS}`,
  }),
  visitCard({
    id: 'blisters',
    title: 'Blisters while wear builds up',
    says: 'stop',
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
    says: 'ask the prescriber',
    shown: (about) => (piecesAbout(about).some(({ firstWorn }) => firstWorn && firstWorn <= about.today) ? eachVisit : undefined),
    question: () => 'Does a garment roll, fold or bunch, or do two lie over each other?',
    ifPresent: 'A fold doubles the pressure. Pieces overlap by 5 cm or more with the outer one looser; alter the edge.',
    kind: 'published',
    source: 'Best Practice for the Management of Lymphoedema 2006 (no folding down); overlap from a published leaflet.',
  }),
  visitCard({
    id: 'unexplained-loss',
    title: 'Weight lost, or a child who stopped growing',
    says: 'ask the prescriber',
    shown: lossOrStall,
    question: () => 'Is the weight lost, or the pause in growth, unexplained?',
    ifPresent: 'Unexplained change. Tell the prescriber.',
    limits: ['weightLookPct', 'stalledGrowthDays'],
    kind: 'clinic default',
    source: 'Clinic default: a fall by the clinic’s weight limit between two weighings, or no gain of height in half a year.',
  }),
];

/** Weight up by more than the limit since the last weighing of a grown person, whatever the gap, in words: within days nobody weighs twice. */
function weightUp({ record, policy, today }: CautionAbout): string[] | undefined {
  const [before, newest] = record.visits.flatMap(({ day, weight }) => (weight ? [{ day, kg: kg(weight) }] : [])).slice(-2);
  if (!before || !newest || ageInYears(record.born, today) < policy.grownFromYears) return undefined;
  const gain = newest.kg - before.kg;
  const days = daysBetween(before.day, newest.day);
  return gain > policy.suddenGainKg
    ? [
        `weight up by ${gain.toFixed(1)} kg from ${showDay(before.day)} to ${showDay(newest.day)}${days > policy.suddenGainDays ? ': ask whether it came within days' : ''}`,
      ]
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
