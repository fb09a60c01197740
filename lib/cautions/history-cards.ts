import { ageInYears } from '../units/age';
import type { CautionAbout, CautionCard } from './caution-card';

const CONSENSUS = 'International consensus on risks and contraindications of medical compression (Rabe 2020, Phlebology 35:447–460).';
const everyone = () => ['asked at intake'];
const legs = ({ record, today }: CautionAbout) => (legGarment({ record, today }) ? ['garment for a leg'] : undefined);

/** Whether a leg garment is in use or about to be: a piece not retired by the day, or a leg marked as affected. */
export function legGarment({ record, today }: Pick<CautionAbout, 'record' | 'today'>): boolean {
  const worn = record.pieces.some((piece) => piece.limb === 'leg' && (piece.retired === null || piece.retired > today));
  return worn || record.affected.some(({ limb }) => limb === 'leg');
}

const once = (card: Omit<CautionCard, 'version' | 'asked' | 'limits' | 'question'> & { readonly question: string }): CautionCard => ({
  ...card,
  version: 1,
  asked: 'once',
  limits: [],
  question: () => card.question,
});

/** Cards of a patient's history, asked at intake and again while the answer is not known. */
export const HISTORY_CARDS: readonly CautionCard[] = [
  once({
    id: 'graft-near-skin',
    title: 'Bypass graft near the skin',
    shown: legs,
    question: 'Does a blood vessel graft run close under the skin where the garment will press?',
    ifPresent: 'It could be squeezed. Ask the vascular team before anything is issued.',
    kind: 'published',
    source: CONSENSUS,
  }),
  once({
    id: 'heart-failure',
    title: 'Heart failure on record',
    shown: everyone,
    question: 'Is heart failure on record, and which class?',
    ifPresent:
      'Severe: do not compress. Moderate: only with close monitoring by the team that treats it. Write the class beside the answer.',
    kind: 'published',
    source: CONSENSUS,
  }),
  once({
    id: 'loss-of-feeling',
    title: 'Loss of feeling',
    shown: everyone,
    question: 'Is feeling lost or reduced where the garment will lie?',
    ifPresent: 'Harm may not be felt. Specialist advice first, and look at the skin at each visit.',
    kind: 'published',
    source: CONSENSUS,
  }),
  once({
    id: 'material-allergy',
    title: 'Allergy to a material',
    shown: everyone,
    question: 'Is an allergy known to a fibre, rubber, silicone or dye that the garment may hold?',
    ifPresent: 'Choose another material and write which one on the order.',
    kind: 'published',
    source: CONSENSUS,
  }),
  once({
    id: 'can-take-off',
    title: 'Taking it off',
    shown: ({ record, today }) => [ageInYears(record.born, today) < 16 ? 'a child: asked of the carer too' : 'asked at intake'],
    question: 'Is it doubtful that this person, or somebody with them, can take the garment off or get help at any hour?',
    ifPresent: 'Plan with the prescriber who takes it off, and when, before it is worn at home.',
    kind: 'common practice',
    source: 'Common practice (from memory): memory loss, weak hands, living alone.',
  }),
  once({
    id: 'plan-recheck',
    title: 'Something new since the plan was made',
    shown: everyone,
    question: 'Pregnancy, a new medicine that can cause swelling, or an operation or skin graft since the plan was made?',
    ifPresent: 'Check the plan again with the prescriber.',
    kind: 'common practice',
    source: 'Common practice (from memory); a recent graft is named in published leaflets.',
  }),
];
