import { ARMS, armPiece, armVisit, swollen } from './arm-tapings';
import { SWOLLEN_HAND } from './measure-visit';
import type { Story } from './story';

/** The left arm swells month by month while weight and the right arm stay; two pieces wear out next month. */
const TESS: Story = {
  reference: 'HL-0119',
  name: 'Tess Ibarra',
  shows: 'one-limb swelling',
  sex: 'F',
  years: 52,
  months: 5,
  shape: 'woman',
  heightCm: 166,
  diagnosisGroup: 'lymphoedema',
  language: 'es',
  note: 'Right-handed.',
  affected: ['left'],
  affectedFactor: 1.02,
  taping: ARMS,
  visits: [
    armVisit(428, '09:40', 'MT', 71.2, { swelling: swollen('left', 0) }),
    armVisit(358, '09:45', 'MT', 71, { swelling: swollen('left', 0.006) }),
    armVisit(287, '09:30', 'MT', 71.4, { swelling: swollen('left', 0.014) }),
    armVisit(217, '09:50', 'RA', 71.1, { swelling: swollen('left', 0.022) }),
    armVisit(146, '09:40', 'MT', 71.3, { swelling: swollen('left', 0.034) }),
    armVisit(76, '09:35', 'MT', 71, { swelling: swollen('left', 0.046) }),
    armVisit(9, '09:40', 'MT', 71.2, { swelling: swollen('left', 0.06), note: 'Rings do not come off in the evening.' }),
  ],
  pieces: [
    armPiece({ piece: '1', side: 'left', cutFromVisit: 0, firstWornBack: 404, retired: { daysBack: 240, reason: 'worn out' } }),
    armPiece({ piece: '2', side: 'left', cutFromVisit: 4, firstWornBack: 118 }),
    armPiece({ piece: '3', side: 'left', cutFromVisit: 4, firstWornBack: 118 }),
  ],
  orders: [
    {
      side: 'left',
      from: 'wrist-crease',
      to: 'axillary-fold',
      cutFromVisit: 6,
      reductionPct: 15,
      quantity: 2,
      lifeDays: 150,
      leadDays: 21,
      reasonCode: 'condition changed',
      sentBack: 8,
      checkedBy: 'K. Doan',
    },
  ],
  answers: [{ action: 'review', answer: 'act', daysBack: 9, reason: 'Seen with the prescriber; two new sleeves ordered.' }],
};

/** The right arm and hand come down over seven months of treatment; a new piece lies ready. */
const SOL: Story = {
  reference: 'HL-0140',
  name: 'Sol Marchetti',
  shows: 'good news: swelling goes down',
  sex: 'F',
  years: 29,
  months: 2,
  shape: 'woman',
  heightCm: 170,
  diagnosisGroup: 'lymphoedema',
  language: 'en',
  note: 'Piece 3 was delivered yesterday and waits for its fitting.',
  affected: ['right'],
  affectedFactor: 1.02,
  taping: ARMS,
  measures: SWOLLEN_HAND,
  form: 'sleeve-glove',
  visits: [
    armVisit(222, '15:10', 'RA', 64.5, { swelling: swollen('right', 0.14) }),
    armVisit(180, '15:20', 'RA', 64.2, { swelling: swollen('right', 0.115) }),
    armVisit(138, '15:05', 'RA', 64.4, { swelling: swollen('right', 0.09) }),
    armVisit(97, '15:15', 'RA', 64.1, { swelling: swollen('right', 0.068) }),
    armVisit(55, '15:10', 'RA', 64.3, { swelling: swollen('right', 0.052) }),
    armVisit(22, '15:10', 'RA', 64.2, { swelling: swollen('right', 0.04), note: 'Sleeve feels loose at the upper arm.' }),
  ],
  pieces: [
    armPiece({
      piece: '1',
      side: 'right',
      cutFromVisit: 0,
      firstWornBack: 208,
      lifeDays: 120,
      retired: { daysBack: 90, reason: 'too wide' },
    }),
    armPiece({ piece: '2', side: 'right', cutFromVisit: 3, firstWornBack: 83 }),
    armPiece({ piece: '3', side: 'right', cutFromVisit: 5, firstWornBack: null }),
    armPiece({ piece: '4', side: 'right', cutFromVisit: 3, firstWornBack: 60, madeTo: 'hand-glove' }),
  ],
  answers: [
    { action: 'review', answer: 'act', daysBack: 22, reason: 'Less swelling, as hoped for. Sol knows.' },
    { action: 'order', answer: 'not-now', daysBack: 2, untilAhead: 5, reason: 'Measured again first: the arm may become smaller still.' },
  ],
};

/** One ladder, one piece in wear for nearly three weeks, and nobody has recorded a first fit. */
const PERRIN: Story = {
  reference: 'HL-0122',
  name: 'Perrin Vale',
  shows: 'a single visit; new piece without a first fit',
  sex: 'M',
  years: 44,
  months: 7,
  shape: 'man',
  heightCm: 176,
  diagnosisGroup: 'burn scar',
  language: 'en',
  note: null,
  affected: ['left'],
  affectedFactor: 0.985,
  taping: { ...ARMS, unit: 'in', interval: 1.5 },
  visits: [armVisit(46, '17:20', 'KD', 82.4, { note: 'Measured a week after the last graft check.' })],
  pieces: [
    armPiece({
      piece: '1',
      side: 'left',
      cutFromVisit: 0,
      firstWornBack: 19,
      firstFitMissing: true,
      reductionPct: 10,
      lifeDays: 90,
      leadDays: 14,
    }),
    armPiece({ piece: '2', side: 'left', cutFromVisit: 0, firstWornBack: null, reductionPct: 10, lifeDays: 90, leadDays: 14 }),
  ],
};

/** The adults who are taped at the arms. */
export const ARM_STORIES: readonly Story[] = [TESS, SOL, PERRIN];
