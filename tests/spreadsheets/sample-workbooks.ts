import type { Mapping } from '@/lib/exchange/spreadsheet/mapping';
import type { MadeCell } from './flat-workbook';

/** A sample: the sheet as it is made, what a person answers, and what must come of it. */
export type Sample = {
  readonly rows: readonly (readonly MadeCell[])[];
  readonly answers: Partial<Mapping>;
  readonly patients: readonly string[];
  readonly visits: number;
  readonly girths: number;
  /** `patient day side limb distance girth`, in the unit of the sheet, as the sheet means it. */
  readonly some: readonly string[];
  /** Words that must be said of what was left out or taken otherwise. */
  readonly said: readonly string[];
};

const WHO = { reference: 'HL-1', born: '1961-04-30', sex: 'F' } as const;
const LEG = { limb: 'leg', zero: 'ankle-crease', unit: 'cm' } as const;
const day = (text: string): MadeCell => ({ day: text });

/** Eight workbooks as clinics have them; the people in them are made up. */
export const SAMPLES: Readonly<Record<string, Sample>> = {
  'both-legs-side-by-side': {
    rows: [
      [{ text: 'Girths of both legs', across: 9 }],
      ['Patient:', 'HL-1', 'Born:', '30/04/1961', 'Sex:', 'f'],
      [],
      ['', { text: 'Right leg', across: 4 }, { text: 'Left leg', across: 4 }],
      ['Date', '0', '10', '20', '30', '0', '10', '20', '30'],
      [day('2026-03-02'), 22.5, 26, 31.5, 36, 22, 25.5, 31, 35.5],
      [day('2026-05-18'), 22, 25.5, 'n/a', 35.5, 22, 25.5, 31, '35.5*'],
      ['Mean', 22.25, 25.75, 31.5, 35.75, 22, 25.5, 31, 35.5],
      ['* taped over a plaster'],
    ],
    answers: { ...LEG, sex: 'F', born: '1961-04-30' },
    patients: ['HL-1'],
    visits: 2,
    girths: 15,
    some: ['HL-1 2026-03-02 right leg 20 31.5', 'HL-1 2026-05-18 left leg 30 35.5', 'HL-1 2026-03-02 left leg 0 22'],
    said: ['The heading is row 5', 'sums or means', 'nothing was measured', 'a mark behind', 'of words'],
  },
  'chart-two-figure-years': {
    rows: [
      ['Leg chart, right leg'],
      ['cm', '02.03.26', '18.05.26', '14.09.26'],
      ['0', 22.5, 22, 21.5],
      ['10', 26, 25.5, 25],
      ['20', 31.5, '–', 30.5],
      ['34 knee', 38, 37.5, 37],
      ['Total', 118, 85, 114],
      ['Swelling was less in the evening.'],
    ],
    answers: { ...WHO, ...LEG, side: 'right', lastYear: 2026, dayOrder: 'dmy' },
    patients: ['HL-1'],
    visits: 3,
    girths: 11,
    some: ['HL-1 2026-03-02 right leg 34 38', 'HL-1 2026-09-14 right leg 20 30.5'],
    said: ['The heading is row 2', 'row 7', 'row 8'],
  },
  'long-table-own-headings': {
    rows: [
      ['Patient no.', 'Date of birth', 'Sex', 'Measured on', 'Side', 'Distance (in)', 'Circumference (in)', 'Remarks'],
      [{ text: 'HL-7', down: 3 }, { day: '2014-03-09' }, 'm', day('2026-03-02'), 'L', '0', '7 1/4', ''],
      ['', '', '', '', '', '2', '7 5/8', ''],
      ['', '', '', '', '', '4', '8 1/2', 'scar'],
      ['HL-8', day('1958-12-01'), 'female', day('2026-04-07'), 'right', '0', '9', ''],
      ['', '', '', '', '', '2', '9 3/8', ''],
    ],
    answers: { limb: 'leg', zero: 'ankle-crease' },
    patients: ['HL-7', 'HL-8'],
    visits: 2,
    girths: 5,
    some: ['HL-7 2026-03-02 left leg 2 7 5/8', 'HL-8 2026-04-07 right leg 2 9 3/8'],
    said: ['15 empty cells of patient, day or side took the cell above'],
  },
  'two-tables-one-sheet': {
    rows: [
      ['Right leg'],
      ['place', day('2026-03-02'), day('2026-06-01')],
      ['0', 22.5, 22],
      ['10', 26, 25.5],
      [],
      ['Left leg'],
      ['place', day('2026-03-02'), day('2026-06-01')],
      ['0', 22, 21.5],
      ['10', 25.5, 25],
      ['20', 31, 30.5],
    ],
    answers: { ...WHO, ...LEG },
    patients: ['HL-1'],
    visits: 2,
    girths: 10,
    some: ['HL-1 2026-06-01 left leg 20 30.5', 'HL-1 2026-06-01 right leg 10 25.5'],
    said: ['A second table begins in row 7 and was read too, for the left'],
  },
  'german-decimal-commas': {
    rows: [
      ['Patient', 'Datum der Messung', 'Date', 'Side', '0', '10', '20'],
      ['HL-3', '', '02.03.2026', 'right', '22,5', '26,0', '31,5'],
      ['HL-3', '', '18.05.2026', 'right', '22,0', '25,5', '31,0'],
    ],
    answers: { ...LEG, born: '1961-04-30', sex: 'F' },
    patients: ['HL-3'],
    visits: 2,
    girths: 6,
    some: ['HL-3 2026-03-02 right leg 20 31,5'],
    said: [],
  },
  'lost-points': {
    rows: [
      ['Date', 'Side', '0', '10', '20'],
      [day('2026-03-02'), 'right', 22525, 26025, 31575],
      [day('2026-05-18'), 'right', 22025, 25525, 31025],
    ],
    answers: { ...WHO, ...LEG, figures: 'thousandths' },
    patients: ['HL-1'],
    visits: 2,
    girths: 6,
    some: ['HL-1 2026-03-02 right leg 20 31.575'],
    said: [],
  },
  'arms-in-inches': {
    rows: [
      ['Arms', '', '', '', '', '', ''],
      ['Name of clinic', 'made up'],
      ['Date', 'Arm', 'wrist crease', '2 in', '4 in', '6 in', 'Weight (lb)'],
      [day('2026-02-10'), 'L', '6 1/4', '6 5/8', '7 1/2', '8 3/4', 142],
      [day('2026-02-10'), 'R', '6', '6 1/2', '7 1/4', 'not taped', 142],
      ['Difference', '1/4', '1/8', '1/4', '', '', ''],
    ],
    answers: { ...WHO, limb: 'arm', zero: 'wrist-crease' },
    patients: ['HL-1'],
    visits: 1,
    girths: 7,
    some: ['HL-1 2026-02-10 left arm 0 6 1/4', 'HL-1 2026-02-10 right arm 4 in 7 1/4'],
    said: ['The heading is row 3', 'sums or means'],
  },
  'two-charts-beside-each-other': {
    rows: [
      [{ text: 'Right leg', across: 3 }, '', { text: 'Left leg', across: 3 }],
      ['cm', day('2026-03-02'), day('2026-05-18'), '', 'cm', day('2026-03-02'), day('2026-05-18')],
      ['0', 22.5, 22, '', '0', 22, 21.5],
      ['10', 26, 25.5, '', '10', 25.5, 25],
      ['20', 31.5, 31, '', '20', 31, 30.5],
      ['Sum', 80, 78.5, '', 'Sum', 78.5, 77],
    ],
    answers: { ...WHO, ...LEG },
    patients: ['HL-1'],
    visits: 2,
    girths: 12,
    some: ['HL-1 2026-05-18 left leg 20 30.5', 'HL-1 2026-05-18 right leg 20 31'],
    said: ['The heading is row 2', 'sums or means'],
  },
};
