import { ARMS, armPiece, armVisit, swollen } from './arm-tapings';
import type { Story } from './story';

const ARM_SWELLING = {
  months: 3,
  shape: 'woman',
  sex: 'F',
  heightCm: 168,
  diagnosisGroup: 'lymphoedema',
  language: 'en',
  note: null,
  affected: ['left'],
  affectedFactor: 1.02,
  taping: ARMS,
} as const satisfies Partial<Story>;

const swells = (share: number) => ({ swelling: swollen('left', share) });

/** Nothing is bandaged yet: a wound closes first. */
const WANDA: Story = {
  ...ARM_SWELLING,
  reference: 'HL-0212',
  name: 'Wanda Pryor',
  shows: 'course: getting ready',
  years: 61,
  visits: [armVisit(12, '10:10', 'MT', 70.3, swells(0.13))],
  pieces: [],
  phases: [{ kind: 'getting-ready', daysBack: 12, note: 'Skin tear at the elbow, dressed.' }],
};

/** Bandaged for four weeks; the last two ladders agree. */
const RHODA: Story = {
  ...ARM_SWELLING,
  reference: 'HL-0213',
  name: 'Rhoda Amsel',
  shows: 'course: a reduction that has levelled off',
  years: 58,
  visits: [
    armVisit(41, '09:20', 'RA', 68.2, swells(0.16)),
    armVisit(34, '09:20', 'RA', 68.1, swells(0.16)),
    armVisit(24, '09:20', 'RA', 67.8, swells(0.1)),
    armVisit(13, '09:20', 'RA', 67.7, swells(0.062)),
    armVisit(4, '09:20', 'RA', 67.7, swells(0.06)),
  ],
  pieces: [],
  phases: [
    { kind: 'getting-ready', daysBack: 41 },
    { kind: 'reduction', daysBack: 34, note: 'Bandaged five days a week.' },
  ],
};

/** A ready-made sleeve until the made one comes. */
const INGA: Story = {
  ...ARM_SWELLING,
  reference: 'HL-0214',
  name: 'Inga Tolland',
  shows: 'course: an interim garment',
  years: 47,
  visits: [armVisit(37, '11:00', 'KD', 74.5, swells(0.12)), armVisit(9, '11:00', 'KD', 74.1, swells(0.05))],
  pieces: [],
  phases: [
    { kind: 'reduction', daysBack: 37 },
    { kind: 'interim-garment', daysBack: 9, note: 'Ready-made sleeve, by day.' },
  ],
};

/** Much of what bandaging took off is back half a year later. */
const GRETE: Story = {
  ...ARM_SWELLING,
  reference: 'HL-0215',
  name: 'Grete Holloway',
  shows: 'course: rebound since a reduction',
  years: 66,
  visits: [
    armVisit(260, '10:00', 'MT', 71, swells(0.17)),
    armVisit(232, '10:00', 'MT', 70.6, swells(0.06)),
    armVisit(204, '10:00', 'MT', 70.7, swells(0.058)),
    armVisit(92, '10:00', 'MT', 70.8, swells(0.07)),
    armVisit(3, '10:00', 'MT', 71, swells(0.128)),
  ],
  pieces: [],
  phases: [
    { kind: 'reduction', daysBack: 260 },
    { kind: 'interim-garment', daysBack: 232 },
    { kind: 'garments', daysBack: 204 },
  ],
};

/** Fewer hours are tried; the baseline was chosen by a person. */
const STELLA: Story = {
  ...ARM_SWELLING,
  reference: 'HL-0216',
  name: 'Stella Penrose',
  shows: 'course: stepping down',
  years: 39,
  visits: [
    armVisit(190, '14:00', 'RA', 62.3, swells(0.02)),
    armVisit(60, '14:00', 'RA', 62.1, swells(0.02)),
    armVisit(18, '14:00', 'RA', 62.2, swells(0.021)),
  ],
  pieces: [],
  phases: [
    { kind: 'garments', daysBack: 190 },
    { kind: 'stepping-down', daysBack: 60, baselineVisit: 1, note: 'Nights without.' },
  ],
};

/** Nothing is due but the day to ask again. */
const HETTY: Story = {
  ...ARM_SWELLING,
  reference: 'HL-0217',
  name: 'Hetty Vance',
  shows: 'course: on hold',
  years: 54,
  visits: [armVisit(150, '15:30', 'KD', 80, swells(0.06)), armVisit(66, '15:30', 'KD', 79.6, swells(0.06))],
  pieces: [armPiece({ piece: '1', side: 'left', cutFromVisit: 0, firstWornBack: 120 })],
  phases: [
    { kind: 'garments', daysBack: 150 },
    { kind: 'on-hold', daysBack: 30, askAhead: 24, note: 'Operation of the shoulder.' },
  ],
};

/** Discharged with garments from the family doctor; looked at once more in spring. */
const EDDA: Story = {
  ...ARM_SWELLING,
  reference: 'HL-0218',
  name: 'Edda Marlow',
  shows: 'course: ended, to be asked once more',
  years: 49,
  visits: [armVisit(300, '09:00', 'MT', 66.4, swells(0.05)), armVisit(80, '09:00', 'MT', 66.2, swells(0.03))],
  pieces: [],
  phases: [
    { kind: 'garments', daysBack: 300 },
    { kind: 'ended', daysBack: 80, endedAs: 'discharged', askAhead: 100, note: 'Manages with garments from the family doctor.' },
  ],
};

/** Died: the record stays readable, and nothing asks, links or orders any more. */
const ORLA: Story = {
  ...ARM_SWELLING,
  reference: 'HL-0219',
  name: 'Orla Denby',
  shows: 'course: ended by a death',
  years: 83,
  visits: [armVisit(130, '13:00', 'RA', 58, swells(0.08)), armVisit(50, '13:00', 'RA', 57.1, swells(0.07))],
  pieces: [],
  phases: [
    { kind: 'garments', daysBack: 130 },
    { kind: 'ended', daysBack: 16, endedAs: 'died' },
  ],
};

/** One person for each phase of a course of care. */
export const COURSE_STORIES: readonly Story[] = [WANDA, RHODA, INGA, GRETE, STELLA, HETTY, EDDA, ORLA];
