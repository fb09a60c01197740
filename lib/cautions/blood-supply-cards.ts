import type { Side } from '../ladder/limb';
import type { CautionAnswer, CautionFigures } from '../record/caution-answer';
import { ageInYears } from '../units/age';
import { readDay } from '../units/calendar-day';
import { judgeSupply, SUPPLY_CHECKS, type SupplyCheck, type SupplyFinding, type SupplyJudged } from './blood-supply';
import type { CardBox, CautionAbout, CautionCard } from './caution-card';
import { isTreated } from './treated-limbs';

const RISKS =
  'Leg pain when walking or at night, cold or discoloured foot, missing pulse, ulcer, diabetes, smoking, kidney failure, disease of heart or brain vessels, bypass or stent, feeling lost.';

const child = ({ record, policy, today }: CautionAbout) => ageInYears(record.born, today) < policy.supplyIndexYears;

const BY: readonly CardBox[] = [
  { name: 'abpiDay', label: 'Checked on', kind: 'day' },
  { name: 'by', label: 'Checked by', kind: 'text' },
];
const CLINICAL: CardBox = {
  name: 'clinical',
  label: 'Pulses, refill, colour, warmth, feeling',
  kind: 'choice',
  choices: [
    { key: 'good', words: 'good' },
    { key: 'poor', words: 'not good' },
  ],
};
const RISK: CardBox = {
  name: 'risk',
  label: 'Risk factors',
  hint: RISKS,
  kind: 'choice',
  choices: [
    { key: 'none', words: 'none of them' },
    { key: 'some', words: 'one or more' },
  ],
};
const ADVICE: CardBox = { name: 'advice', label: 'Written advice: whose, and of which day', kind: 'text' };
const pressure: CardBox = { name: 'pressure', label: 'Highest pressure planned', kind: 'number', unit: 'mmHg', least: 1, most: 100 };
const choice = (name: string, label: string, of: readonly string[]): CardBox => ({
  name,
  label,
  kind: 'choice',
  choices: of.map((key) => ({ key, words: key })),
});

const CHILD_BOXES: readonly CardBox[] = [choice('check', 'How it was checked', ['clinical check']), CLINICAL, RISK, ...BY, ADVICE];
const BOXES: readonly CardBox[] = [
  pressure,
  RISK,
  choice('check', 'How it was checked', SUPPLY_CHECKS),
  { name: 'abpi', label: 'Ankle–brachial index of this leg', kind: 'number', unit: '', least: 0.05, most: 3.99 },
  choice('device', 'Device', ['manual', 'automated']),
  choice('waveform', 'Waveform', ['triphasic', 'biphasic', 'monophasic', 'not heard', 'not taken']),
  { name: 'toe', label: 'Toe pressure, the lower of two', kind: 'number', unit: 'mmHg', least: 1, most: 250 },
  CLINICAL,
  ...BY,
  { name: 'why', label: 'Why no index, or for when it is booked', kind: 'text' },
  ADVICE,
];

const supplyCard = (side: Side): CautionCard => ({
  id: `blood-supply-${side}`,
  version: 1,
  title: `Blood supply of the ${side} leg`,
  eachVisit: child,
  lasts: 'abpiDays',
  says: 'stop',
  limb: 'leg',
  side,
  shown: (about) => (isTreated(about, { limb: 'leg', side }) ? [`garment for the ${side} leg`] : undefined),
  question: (about) =>
    child(about)
      ? `Is anything wrong with pulses, refill, colour, warmth or feeling of the ${side} foot, or have they not been looked at?`
      : `Is the blood supply of the ${side} leg in doubt for the pressure planned: not checked, outside this clinic’s limits, or signs of poor flow?`,
  ifPresent: 'Blood supply is not confirmed for this pressure. Nothing is issued for this leg until the prescriber has answered.',
  boxes: (about) => (child(about) ? CHILD_BOXES : BOXES),
  limits: ['abpiStop', 'abpiLow', 'abpiHigh', 'toeStopMmHg', 'toeLowMmHg', 'lightPressureMmHg', 'strongPressureMmHg'],
  kind: 'published',
  source:
    'No compression with an index below 0.6, ankle below 60 mmHg or toe below 30 mmHg (international consensus, Rabe 2020, Phlebology 35:447–460); up to 20 mmHg without an index where no risk is known (UK area guideline); swelling makes the index wrong, and a full clinical check may replace it (British Lymphology Society 2018, abstract). Sources differ, so the clinic’s own limits count.',
});

/** Blood supply, a card for each leg that wears a garment or is about to. */
export const BLOOD_SUPPLY_CARDS: readonly CautionCard[] = [supplyCard('left'), supplyCard('right')];

/** Whether a card asks for the blood supply of a leg. */
export function isSupplyCard(card: string): boolean {
  return BLOOD_SUPPLY_CARDS.some(({ id }) => id === card);
}

/** A finding from the boxes as typed or as kept; what cannot be read is left out. */
function supplyFinding(details: Readonly<Record<string, string>>): SupplyFinding {
  const number = (name: string) => (details[name] ? Number(details[name].replace(',', '.')) : undefined);
  const day = readDay(details.abpiDay ?? '');
  const [plannedMmHg, abpi, toeMmHg] = [number('pressure'), number('abpi'), number('toe')];
  return {
    ...(plannedMmHg ? { plannedMmHg } : {}),
    ...(details.risk === 'none' || details.risk === 'some' ? { risk: details.risk } : {}),
    ...(details.check ? { check: details.check as SupplyCheck } : {}),
    ...(abpi ? { abpi } : {}),
    ...(toeMmHg ? { toeMmHg } : {}),
    ...(details.clinical === 'good' || details.clinical === 'poor' ? { clinical: details.clinical } : {}),
    ...(day.kind === 'read' ? { day: day.value } : {}),
    ...(details.by ? { by: details.by } : {}),
    ...(details.why ? { why: details.why } : {}),
    ...(details.advice ? { advice: details.advice } : {}),
  };
}

/** What follows from the figures of an answer on a day, by the clinic's limits as they are now. */
export function supplyJudged(figures: CautionFigures | null, { record, policy, today }: CautionAbout): SupplyJudged {
  return judgeSupply(supplyFinding(figures?.details ?? {}), ageInYears(record.born, today), policy, today);
}

/** Why a “no” does not count for a piece of this pressure; undefined where it does. Children are checked at each fitting whatever the pressure. */
export function supplyTooLow({ figures }: CautionAnswer, pressureMmHg: number | null): string | undefined {
  const { plannedMmHg } = supplyFinding(figures?.details ?? {});
  if (plannedMmHg === undefined || pressureMmHg === null || pressureMmHg <= plannedMmHg) return undefined;
  return `checked for ${plannedMmHg} mmHg, and this piece goes up to ${pressureMmHg} mmHg`;
}
