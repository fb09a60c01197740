import { ageInYears } from '../units/age';
import type { CautionAbout, CautionCard } from './caution-card';
import { garmentFor, piecesAbout } from './treated-limbs';

const CONSENSUS = 'International consensus on risks and contraindications of medical compression (Rabe 2020, Phlebology 35:447–460).';
const everyone = () => ['asked before the first garment and again when it has lapsed'];

type Part = Omit<CautionCard, 'version' | 'eachVisit' | 'limits' | 'question'> & { readonly version?: number; readonly question: string };
const card = ({ question, version = 2, ...rest }: Part): CautionCard => ({
  ...rest,
  version,
  eachVisit: false,
  limits: [],
  question: () => question,
});

/** Cards of a patient's history; each answer of “no” lasts for its own time. */
export const HISTORY_CARDS: readonly CautionCard[] = [
  card({
    id: 'graft-near-skin',
    title: 'Bypass graft near the skin',
    lasts: 'graftAskDays',
    says: 'stop',
    limb: 'leg',
    shown: (about) => garmentFor(about, 'leg'),
    question: 'Does a blood vessel graft run close under the skin where the garment will press?',
    ifPresent: 'It could be squeezed. Ask the vascular team before anything is issued.',
    kind: 'published',
    source: CONSENSUS,
  }),
  card({
    id: 'heart-failure',
    title: 'Heart failure on record',
    lasts: 'heartAskDays',
    says: 'stop',
    shown: everyone,
    question: 'Is heart failure on record?',
    ifPresent:
      'Class IV: no compression. Class III: only with strict indication and monitoring by the team that treats it. I and II: their word too.',
    boxes: () => [
      {
        name: 'class',
        label: 'Class (NYHA)',
        kind: 'choice',
        choices: ['I', 'II', 'III', 'IV', 'not known'].map((key) => ({ key, words: key })),
      },
    ],
    kind: 'published',
    source: `${CONSENSUS} Bandages in class III and IV raised pressure in the right heart (Urbanek 2020, abstract).`,
  }),
  card({
    id: 'dialysis-access',
    version: 1,
    title: 'Dialysis access',
    lasts: 'accessAskDays',
    says: 'stop',
    shown: everyone,
    question: 'Is there, or is there planned, a vessel access for dialysis in a limb that wears or will wear a garment?',
    ifPresent:
      'No garment on that limb without the access team’s written word. Somebody feels every day that the vessel buzzes under the finger; when the buzz is gone, that is an emergency.',
    boxes: () => [{ name: 'where', label: 'Which limb, and since or from when', kind: 'text' }],
    kind: 'published',
    source:
      'Cuffs and needles are barred there and the thrill is felt daily (Can Fam Physician); no guideline on garments over an access was found.',
  }),
  card({
    id: 'active-cancer',
    version: 1,
    title: 'Active cancer',
    lasts: 'cancerAskDays',
    says: 'ask the prescriber',
    shown: everyone,
    question: 'Is cancer known and active, treated now or within 6 months, or is there a new lump?',
    ifPresent:
      'The team that treats it is told. New, faster or painful swelling, or swelling of neck or face: no compression until it was assessed the same day.',
    boxes: () => [{ name: 'team', label: 'Who was told, and when', kind: 'text' }],
    kind: 'common practice',
    source:
      'From memory, check first; active cancer (treatment now, within 6 months, or palliative) is an item of the Wells score (NICE table).',
  }),
  card({
    id: 'loss-of-feeling',
    title: 'Loss of feeling',
    lasts: 'feelingAskDays',
    says: 'stop',
    shown: everyone,
    question: 'Is feeling lost or reduced where the garment will lie?',
    ifPresent: 'Harm may not be felt. Specialist advice first, and somebody looks at the skin every day.',
    boxes: () => [
      { name: 'how', label: 'How it was tested', kind: 'text' },
      { name: 'looks', label: 'Who looks at the skin every day', kind: 'text' },
    ],
    kind: 'published',
    source: CONSENSUS,
  }),
  card({
    id: 'material-allergy',
    title: 'Allergy to a material',
    lasts: 'allergyAskDays',
    says: 'ask the prescriber',
    shown: everyone,
    question: 'Is an allergy known to a fibre, rubber, silicone or dye that the garment may hold?',
    ifPresent: 'Choose another material and write which one in the order’s note for the maker.',
    kind: 'published',
    source: CONSENSUS,
  }),
  card({
    id: 'can-take-off',
    title: 'Taking it off',
    lasts: 'removeAskDays',
    says: 'stop',
    shown: ({ record, today }) => [
      ageInYears(record.born, today) < 16 ? 'a child: asked of the carer too' : 'asked before the first garment',
    ],
    question: 'Is it doubtful that this person, or somebody with them, can take the garment off or get help at any hour?',
    ifPresent: 'No firm garment at home until it is settled with the prescriber who takes it off, by day and by night.',
    kind: 'common practice',
    source: 'Common practice (from memory): memory loss, weak hands, living alone.',
  }),
];

/** Heat: skin that was grafted does not sweat, and covered skin cools less. */
export const HEAT_CARD: CautionCard = {
  id: 'heat',
  version: 1,
  title: 'Heat after large grafts',
  eachVisit: (about) => isInfant(about),
  lasts: 'heatAskDays',
  says: 'ask the prescriber',
  shown: (about) =>
    piecesAbout(about).length > 0 || about.record.affected.length > 0
      ? [isInfant(about) ? 'an infant' : 'asked before each summer']
      : undefined,
  question: ({ policy }) =>
    `Was ${policy.heatAskPct} % or more of the skin grafted, or is this an infant, without a plan for hot days that the family knows?`,
  ifPresent: 'Make one with the prescriber: shade, wetting the garment, breaks, when it comes off, school and sport.',
  boxes: ({ policy }) => [
    {
      name: 'grafted',
      label: 'Skin grafted',
      kind: 'number',
      unit: '% of skin',
      least: 1,
      most: 100,
      hint: `From ${policy.heatPlanPct} % the plan is in writing.`,
    },
    { name: 'plan', label: 'The plan: where it is written', kind: 'text' },
  ],
  limits: ['heatAskPct', 'heatPlanPct', 'infantYears'],
  kind: 'published',
  source:
    'Core temperature of adults after 90 minutes at 40 °C: up 1.6 °C with more than 40 % grafted (7 of 15 stopped), 1.2 °C with 17 to 40 %, 0.9 °C in controls (Schlader, abstract). Children were not studied; the plan itself is a clinic default.',
};

function isInfant({ record, policy, today }: CautionAbout): boolean {
  return ageInYears(record.born, today) < policy.infantYears;
}

/** Cards that are asked no more: an answer of “yes” given to one of them still stands, and still stops, until it is answered anew. */
export const RETIRED_CARDS: readonly CautionCard[] = [
  { id: 'arterial-supply', title: 'Blood supply to the leg (earlier card)', says: 'stop', limb: 'leg' },
  { id: 'one-sided-swelling', title: 'New swelling of one calf (earlier card)', says: 'same day', limb: 'leg' },
  { id: 'plan-recheck', title: 'Something new since the plan was made (earlier card)', says: 'ask the prescriber' },
].map((one) => ({
  ...(one as Pick<CautionCard, 'id' | 'title' | 'says' | 'limb'>),
  version: 1,
  eachVisit: false,
  lasts: 'visitAnswerDays' as const,
  shown: () => undefined,
  question: () => 'Is what was answered “yes” earlier still so?',
  ifPresent: 'It stands until it is answered anew in words.',
  limits: [],
  kind: 'clinic default' as const,
  source: 'Clinic default: a card that is asked no more keeps its last “yes”.',
}));
