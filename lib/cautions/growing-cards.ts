import type { GrowthWatchPart } from '../garment-forms/garment-catalogue';
import { formOf } from '../garment-forms/own-form';
import type { Piece } from '../record/patient-record';
import { ageInYears } from '../units/age';
import type { CautionAbout, CautionCard } from './caution-card';
import { piecesAbout } from './treated-limbs';

const SLEEP =
  'Two children got severe pauses of breath in sleep under garments of face and neck, better without (Eur Respir J 2000;16:1205, abstract).';
const PARTS = ['face', 'neck', 'chest', 'hand', 'foot'] as const;

/** The card that says which other garments a child wears, that no piece on record shows. */
const ELSEWHERE = 'garment-elsewhere';

/** Parts of a growing child that garments press: of each piece by its form, and of garments that are no piece here. */
function watchedParts(about: CautionAbout): {
  readonly parts: readonly GrowthWatchPart[];
  readonly noForm: readonly Piece[];
} {
  const { record, policy, today } = about;
  if (ageInYears(record.born, today) >= policy.growthWatchYears) return { parts: [], noForm: [] };
  const pieces = piecesAbout(about);
  const elsewhere = record.cautions?.find(({ card, answer }) => card === ELSEWHERE && answer === 'present')?.figures?.details?.part;
  const found = [...pieces.flatMap((piece) => formOf(piece.garment)?.watch ?? []), ...partsIn(elsewhere)];
  return { parts: PARTS.filter((part) => found.includes(part)), noForm: pieces.filter((piece) => !piece.garment) };
}

function partsIn(choice: string | undefined): readonly GrowthWatchPart[] {
  return PARTS.filter((part) => (choice ?? '').split(' and ').includes(part));
}

const over = (parts: readonly GrowthWatchPart[]) => (about: CautionAbout) => {
  const found = watchedParts(about).parts.filter((part) => parts.includes(part));
  return found.length > 0 ? [`a growing child with a garment over ${found.join(' and ')}`] : undefined;
};
const infant = (about: CautionAbout) => ageInYears(about.record.born, about.today) < about.policy.infantYears;

/** Cards of growing children by what the garments press: airway and feeding, first night, mouth, chest, hand and foot. */
export const GROWING_CARDS: readonly CautionCard[] = [
  {
    id: 'airway-and-feeding',
    version: 1,
    title: 'Breathing, sleep and feeding',
    eachVisit: true,
    lasts: 'visitAnswerDays',
    says: 'emergency',
    shown: over(['face', 'neck', 'chest']),
    question: () =>
      'Since the garment is worn: snoring, pauses or noisy breathing, sweating or restless sleep, sleepy by day, choking, drooling, or feeding worse?',
    ifPresent:
      'Any pause, blue colour or noisy breathing: garment off now, emergency. Anything else: garment off, prescriber the same day.',
    limits: ['growthWatchYears'],
    kind: 'published',
    source: SLEEP,
  },
  {
    id: 'first-night',
    version: 1,
    title: 'First night in the garment',
    eachVisit: true,
    lasts: 'visitAnswerDays',
    says: 'stop',
    shown: over(['face', 'neck']),
    question: () => 'Is it, or will it be, worn at night without a daytime sleep that somebody watched first?',
    ifPresent: 'Not at night until a daytime sleep was watched from beginning to end.',
    limits: ['growthWatchYears'],
    kind: 'clinic default',
    source: `Clinic default after: ${SLEEP}`,
  },
  {
    id: 'infant-word',
    version: 1,
    title: 'Infant: the prescriber’s yes',
    eachVisit: false,
    lasts: 'visitAnswerDays',
    says: 'stop',
    shown: (about) => (infant(about) && piecesAbout(about).length > 0 ? ['an infant with a garment worn or to come'] : undefined),
    question: () => 'Is the prescriber’s written yes for this infant and this garment missing?',
    ifPresent: 'Nothing is handed over until it is there.',
    limits: ['infantYears'],
    kind: 'clinic default',
    source: 'Clinic default: infants cannot say that something is wrong.',
  },
  {
    id: 'mouth-and-bite',
    version: 1,
    title: 'Growth watch: mouth, bite and eyes',
    eachVisit: false,
    lasts: 'faceWatchDays',
    says: 'ask the prescriber',
    shown: over(['face']),
    question: () => 'Does the mouth open less than before, has the bite changed, or do the eyes not close fully?',
    ifPresent: 'Tell the prescriber; an orthodontist belongs to the team. Do not tighten or lengthen wear meanwhile.',
    boxes: () => [{ name: 'mouth', label: 'Mouth opening', kind: 'number', unit: 'mm', least: 1, most: 90 }],
    limits: ['growthWatchYears'],
    kind: 'published',
    source:
      'Jaw growth held back and lasting tooth changes in six children within a year of face masks (Fricke 1996; 1999, J Burn Care Rehabil 20:239–249).',
  },
  {
    id: 'chest-and-spine',
    version: 1,
    title: 'Growth watch: chest and spine',
    eachVisit: false,
    lasts: 'chestWatchDays',
    says: 'ask the prescriber',
    shown: over(['chest']),
    question: () =>
      'Has the chest changed its shape, does its girth move less between breathing out and in, or is the spine less straight?',
    ifPresent: 'Tell the prescriber; do not tighten or lengthen wear meanwhile.',
    boxes: () => [
      { name: 'out', label: 'Chest girth, breathed out', kind: 'number', unit: 'cm', least: 20, most: 160 },
      { name: 'in', label: 'Chest girth, breathed in', kind: 'number', unit: 'cm', least: 20, most: 160 },
    ],
    limits: ['growthWatchYears'],
    kind: 'common practice',
    source: 'Common practice (from memory): no study of garments over a growing chest was reached.',
  },
  {
    id: 'growth-watch',
    version: 2,
    title: 'Growth watch: hand and foot',
    eachVisit: true,
    lasts: 'visitAnswerDays',
    says: 'ask the prescriber',
    shown: (about) => {
      const { noForm } = watchedParts(about);
      const named = noForm.map(({ piece }) => piece).join(', ');
      const reasons = [
        ...(over(['hand', 'foot'])(about) ?? []),
        ...(noForm.length > 0 ? [`the form of piece ${named} is not on record: look whether it covers hand or foot`] : []),
      ];
      return reasons.length > 0 ? reasons : undefined;
    },
    question: () => 'Do fingers or toes crowd, are nails of another colour, or has the arch of hand or foot changed its shape?',
    ifPresent: 'Tell the prescriber, who may ask others to look; do not tighten or lengthen wear meanwhile.',
    limits: ['growthWatchYears'],
    kind: 'common practice',
    source: 'Common practice (from memory of case reports).',
  },
  {
    id: ELSEWHERE,
    version: 1,
    title: 'Other garments of a child',
    eachVisit: false,
    lasts: 'visitAnswerDays',
    says: 'ask the prescriber',
    shown: ({ record, policy, today }) => (ageInYears(record.born, today) < policy.growthWatchYears ? ['a growing child'] : undefined),
    question: () => 'Does the child wear a garment over face, neck or chest that is no piece on this record?',
    ifPresent: 'Then the questions for that part are asked here too.',
    boxes: () => [
      {
        name: 'part',
        label: 'Over which part',
        kind: 'choice',
        choices: ['face', 'neck', 'chest', 'face and neck', 'neck and chest', 'face and neck and chest'].map((key) => ({
          key,
          words: key,
        })),
      },
    ],
    limits: ['growthWatchYears'],
    kind: 'clinic default',
    source: 'Clinic default: masks, collars and vests come from other makers as well.',
  },
];
