import { TIGHTS } from './measure-visit';
import type { Story, StoryPiece, StoryVisit, Taping } from './story';

const visit = (daysBack: number, time: string, by: StoryVisit['by'], weightKg: number, rest: Partial<StoryVisit> = {}): StoryVisit => ({
  daysBack,
  time,
  by,
  posture: 'lying',
  body: { weightKg },
  ...rest,
});

const LEG: Taping = {
  limb: 'leg',
  sides: ['left', 'right'],
  zero: 'ankle-crease',
  direction: 'up',
  unit: 'cm',
  interval: 5,
  rungs: 'whole',
  landmarks: [1, 2],
  floorToFold: true,
};

const legPiece = (rest: Partial<StoryPiece> & Pick<StoryPiece, 'piece' | 'side' | 'cutFromVisit' | 'firstWornBack'>): StoryPiece => ({
  from: 'ankle-crease',
  to: 'gluteal-fold',
  reductionPct: 15,
  lifeDays: 180,
  leadDays: 21,
  ...rest,
});

/** 5 % heavier than when his piece was cut, and both legs are as much larger as that explains; tights over both, with the measures they are made to. */
const WIM: Story = {
  reference: 'HL-0102',
  name: 'Wim Aldous',
  shows: 'adult weight gain since the piece was cut',
  sex: 'M',
  years: 58,
  months: 3,
  shape: 'man',
  heightCm: 178,
  diagnosisGroup: 'lymphoedema',
  language: 'en',
  note: null,
  affected: ['left'],
  affectedFactor: 1.06,
  taping: LEG,
  measures: TIGHTS,
  form: 'waist-high',
  visits: [
    visit(348, '09:20', 'RA', 91.4),
    visit(166, '09:10', 'RA', 91.9, { note: 'New piece ordered after this ladder.' }),
    visit(4, '09:25', 'RA', 97, { note: 'Off work with his back since August.' }),
  ],
  pieces: [
    legPiece({ piece: '1', side: 'left', cutFromVisit: 0, firstWornBack: 322, retired: { daysBack: 145, reason: 'worn out' } }),
    legPiece({ piece: '2', side: 'left', cutFromVisit: 1, firstWornBack: 144 }),
  ],
  answers: [
    {
      action: 'order',
      answer: 'not-now',
      daysBack: 3,
      untilAhead: 4,
      reason: 'First asked whether his insurer takes a second piece this year.',
    },
  ],
};

/** At the last visit the zero was put about 7/8 in too low: every rung and both landmarks slid with it. */
const BRAM: Story = {
  reference: 'HL-0088',
  name: 'Bram Oster',
  shows: 'a moved zero',
  sex: 'M',
  years: 47,
  months: 8,
  shape: 'man',
  heightCm: 181,
  diagnosisGroup: 'venous',
  language: 'en',
  note: 'Stands all day at work; comes before his shift.',
  affected: ['right'],
  affectedFactor: 1.03,
  taping: { ...LEG, unit: 'in', interval: 1.5 },
  visits: [
    visit(196, '07:50', 'RA', 88.2),
    visit(126, '07:45', 'RA', 88),
    visit(63, '07:55', 'RA', 88.6),
    visit(4, '08:00', 'RA', 88.3, { zeroLowCm: { side: 'right', cm: 2.3 } }),
  ],
  pieces: [legPiece({ piece: '1', side: 'right', cutFromVisit: 1, firstWornBack: 104, reductionPct: 20 })],
};

/** At the last visit the girths of the right leg were read off the inch side of the tape and typed on a centimetre sheet. */
const DARA: Story = {
  reference: 'HL-0159',
  name: 'Dara Quill',
  shows: 'inches typed as centimetres on one visit',
  sex: 'F',
  years: 66,
  months: 1,
  shape: 'woman',
  heightCm: 161,
  diagnosisGroup: 'lymphoedema',
  language: 'en',
  note: null,
  cautionsUnasked: true,
  affected: ['right'],
  affectedFactor: 1.08,
  taping: { ...LEG, sides: ['right'] },
  visits: [
    visit(231, '11:10', 'KD', 70.2),
    visit(140, '11:20', 'KD', 70.6),
    visit(49, '11:05', 'KD', 70.1),
    visit(3, '11:30', 'MT', 70.4, { inchesTypedAsCm: true, note: 'Borrowed tape.' }),
  ],
  pieces: [
    legPiece({ piece: '1', side: 'right', cutFromVisit: 0, firstWornBack: 204, retired: { daysBack: 24, reason: 'worn out' } }),
    legPiece({ piece: '2', side: 'right', cutFromVisit: 2, firstWornBack: 22 }),
    legPiece({ piece: '3', side: 'right', cutFromVisit: 2, firstWornBack: null }),
  ],
  answers: [
    { action: 'order', answer: 'not-now', untilAhead: 6, daysBack: 1, reason: 'Her last figures look like inches. First measured again.' },
    { action: 'refit', answer: 'not-now', untilAhead: 6, daysBack: 1, reason: 'Her last figures look like inches. First measured again.' },
  ],
};

/** Taped downward from the gluteal fold to below the knee; the far landmark is never reached. */
const NOOR: Story = {
  reference: 'HL-0150',
  name: 'Noor Feld',
  shows: 'a ladder measured down from the gluteal fold',
  sex: 'F',
  years: 35,
  months: 6,
  shape: 'woman',
  heightCm: 168,
  diagnosisGroup: 'lipoedema',
  language: 'en',
  note: 'Pieces end below the knee.',
  affected: ['left', 'right'],
  affectedFactor: 1.1,
  taping: { ...LEG, zero: 'gluteal-fold', direction: 'down', interval: 4, rungs: 11, landmarks: [1] },
  visits: [visit(257, '12:00', 'RA', 79.5), visit(173, '12:10', 'RA', 79), visit(82, '11:55', 'KD', 78.2), visit(15, '12:05', 'RA', 77.9)],
  pieces: [
    legPiece({ piece: '1', side: 'left', from: '4 cm', to: '44 cm', cutFromVisit: 2, firstWornBack: 55, lifeDays: 150 }),
    legPiece({ piece: '2', side: 'right', from: '4 cm', to: '44 cm', cutFromVisit: 2, firstWornBack: 55, lifeDays: 150 }),
  ],
};

/** One calf more than 3 cm larger within five days, the other unchanged: for the prescriber, today. */
const ANA: Story = {
  reference: 'HL-0031',
  name: 'Ana Brisk',
  shows: 'sudden one-sided calf gain',
  sex: 'F',
  years: 61,
  months: 10,
  shape: 'woman',
  heightCm: 164,
  diagnosisGroup: 'venous',
  language: 'en',
  note: null,
  cautionsUnasked: true,
  affected: ['left'],
  affectedFactor: 1.02,
  taping: { ...LEG, interval: 4, rungs: 7, landmarks: [1], floorToFold: false },
  visits: [
    visit(97, '10:40', 'MT', 73.5),
    visit(6, '10:35', 'MT', 73.8),
    visit(0, '10:30', 'MT', 74.1, {
      note: 'Came without an appointment: the leg feels heavy.',
      swelling: (side, place) => (side === 'left' ? 1 + 0.095 * Math.min(1, place / 0.6) : 1),
    }),
  ],
  pieces: [legPiece({ piece: '1', side: 'left', from: 'ankle-crease', to: 'knee', cutFromVisit: 0, firstWornBack: 76, leadDays: 14 })],
};

/** Larger below the knee and not above it, which the verdict on the whole leg cannot tell; her first piece waits until the tape agrees. */
const ELIN: Story = {
  reference: 'HL-0155',
  name: 'Elin Sorrel',
  shows: 'one part of a leg that changed and the other did not',
  sex: 'F',
  years: 67,
  months: 2,
  shape: 'woman',
  heightCm: 161,
  diagnosisGroup: 'venous',
  language: 'en',
  note: null,
  affected: ['left'],
  affectedFactor: 1.03,
  taping: LEG,
  visits: [
    visit(194, '09:00', 'MT', 69.4),
    visit(103, '09:10', 'MT', 69.1),
    visit(2, '09:05', 'MT', 69.3, {
      note: 'Came to be measured for her first piece.',
      swelling: (side, place) => (side === 'left' && place < 1 ? 1.05 : 1),
    }),
  ],
  pieces: [],
};

/** The adults who are taped at the legs. */
export const LEG_STORIES: readonly Story[] = [WIM, BRAM, DARA, NOOR, ANA, ELIN];
