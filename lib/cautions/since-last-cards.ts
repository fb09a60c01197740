import { ageInYears } from '../units/age';
import type { CautionAbout, CautionCard } from './caution-card';

const everyone = () => ['asked at each visit, hand-over and order'];

/** Between these ages pregnancy is asked about, unless the record says male. Common practice. */
const MAY_BE_PREGNANT = { from: 11, to: 56 } as const;

const mayBePregnant = ({ record, today }: CautionAbout) => {
  const age = ageInYears(record.born, today);
  return record.sex !== 'M' && age >= MAY_BE_PREGNANT.from && age < MAY_BE_PREGNANT.to ? everyone() : undefined;
};

/** What may be new since it was last asked. Each has a due date of its own. */
export const SINCE_LAST_CARDS: readonly CautionCard[] = [
  {
    id: 'pregnancy',
    version: 1,
    title: 'Pregnancy',
    eachVisit: true,
    lasts: 'pregnancyAskDays',
    says: 'ask the prescriber',
    shown: mayBePregnant,
    question: () => 'Is there a pregnancy, or was there a birth within the last 6 weeks?',
    ifPresent:
      'Check the plan with the prescriber; check the size monthly; weight does not explain a change of size meanwhile. One leg, face or hands suddenly swollen, headache or changed sight: same day.',
    boxes: () => [{ name: 'due', label: 'Due date', kind: 'day', ahead: true }],
    limits: [],
    kind: 'published',
    source:
      'Raised risk in the veins to 6 weeks after birth (guidance read); sudden swelling, headache, sight (guidance, and from memory).',
  },
  {
    id: 'new-medicine',
    version: 1,
    title: 'New medicine',
    eachVisit: true,
    lasts: 'medicineAskDays',
    says: 'ask the prescriber',
    shown: everyone,
    question: () =>
      'Was a medicine that can cause swelling started, or its dose changed, since this was last asked: for blood pressure, pain, nerves, diabetes, steroids, hormones, cancer or Parkinson’s?',
    ifPresent:
      'Tell the prescriber before a change of size is read as anything else. Usually both sides swell, 1 to 3 days to a year after the start.',
    boxes: () => [
      { name: 'which', label: 'Which', kind: 'text' },
      { name: 'since', label: 'Since', kind: 'day' },
    ],
    limits: [],
    kind: 'published',
    source:
      'Calcium blockers, minoxidil, hydralazine, glitazones, gabapentinoids, pain killers of the NSAID group, steroids, insulin, dopamine agonists, taxanes, sex hormones (doi 10.7759/cureus.53400, abstract, and others).',
  },
  {
    id: 'new-operation',
    version: 1,
    title: 'Operation, admission, fracture',
    eachVisit: true,
    lasts: 'operationAskDays',
    says: 'ask the prescriber',
    shown: everyone,
    question: () => 'Was there an operation, a skin graft, an admission, a fracture or a plaster since this was last asked?',
    ifPresent: 'Check the plan with the prescriber; nothing firm over a fresh graft until it is confirmed stable.',
    boxes: () => [
      { name: 'which', label: 'Which, and where', kind: 'text' },
      { name: 'since', label: 'On', kind: 'day' },
    ],
    limits: [],
    kind: 'published',
    source: 'Recent graft: no compression (UK formulary); operation and plaster are items of the Wells score (NICE table).',
  },
  {
    id: 'device-line-opening',
    version: 1,
    title: 'Device, line or opening under the garment',
    eachVisit: true,
    lasts: 'deviceAskDays',
    says: 'stop',
    shown: everyone,
    question: () => 'Does the garment press on or near a pacemaker, port, line, shunt, pump, sensor, feeding tube, stoma or tracheostomy?',
    ifPresent:
      'Nothing is handed over that presses on it until the team that looks after it has answered: leave an opening, or another form.',
    boxes: () => [
      { name: 'which', label: 'Which, and where', kind: 'text' },
      { name: 'out', label: 'Comes out on', kind: 'day', ahead: true },
    ],
    limits: [],
    kind: 'common practice',
    source: 'Common practice (from memory); a line or lead in a vein counts in the arm score of Constans 2008.',
  },
];
