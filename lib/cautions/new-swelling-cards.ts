import { type LimbKind, limbInWords, type Side } from '../ladder/limb';
import { type CardBox, type CautionCard, YES_NO } from './caution-card';
import { isTreated } from './treated-limbs';

const sign = (name: string, label: string): CardBox => ({ name, label, kind: 'choice', choices: YES_NO });
const BOXES: readonly CardBox[] = [
  { name: 'onset', label: 'Since when', kind: 'text' },
  sign('pain', 'Pain'),
  sign('warmth', 'Warmth'),
  sign('colour', 'Other colour'),
];

const LIMITS = {
  leg: ['calfGainMm', 'thighGainMm', 'calfGainDays'],
  arm: ['armGainMm', 'calfGainDays'],
} as const;

/** Signs beside the question: one of them answered yes makes the card a yes. */
export const SWELLING_SIGNS: readonly string[] = ['pain', 'warmth', 'colour'];

const swellingCard = (limb: LimbKind, side: Side): CautionCard => ({
  id: `new-swelling-${side}-${limb}`,
  version: 1,
  title: `New swelling of the ${limbInWords(limb, side)}`,
  eachVisit: true,
  lasts: 'visitAnswerDays',
  says: 'same day',
  limb,
  side,
  shown: (about) => {
    const seen = (about.seen ?? []).filter((one) => one.limb === limb && one.side === side).map(({ words }) => words);
    return seen.length > 0 || isTreated(about, { limb, side }) ? [...seen, 'asked at each visit'] : undefined;
  },
  question: () =>
    `Is the ${limbInWords(limb, side)} newly swollen beyond what is known of it, or newly painful, warm or of another colour?`,
  ifPresent:
    'Garment off. Same-day medical assessment, and tell the team of a line or pacemaker on that side. Give the family no name for it. Breathless, chest pain or fainting: ambulance.',
  boxes: () => BOXES,
  limits: LIMITS[limb],
  kind: 'published',
  source:
    'Items of the two-level Wells score for the leg (2003; NICE table; copies differ on 4 or 12 weeks and on more than 3 cm) and of Constans 2008 for the arm; neither fits a limb that is swollen already, so each is one sign, held against the person’s own record, and no score is made.',
});

/** New one-sided swelling, a card for each limb that is treated or where the tape saw a gain. */
export const NEW_SWELLING_CARDS: readonly CautionCard[] = (['leg', 'arm'] as const).flatMap((limb) =>
  (['left', 'right'] as const).map((side) => swellingCard(limb, side)),
);
