import { describe, expect, it } from 'vitest';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { guessMapping } from '@/lib/exchange/spreadsheet/guess-mapping';
import { columnsLeftOut } from '@/lib/exchange/spreadsheet/left-out';
import type { Mapping } from '@/lib/exchange/spreadsheet/mapping';
import { placeLabel, sideIn } from '@/lib/exchange/spreadsheet/place-label';
import { readSpreadsheet, unanswered } from '@/lib/exchange/spreadsheet/read-spreadsheet';
import { ordersOf, spreadsheetDay } from '@/lib/exchange/spreadsheet/spreadsheet-day';
import { textTable } from '@/lib/exchange/spreadsheet/text-table';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { type PatientFile, recordOfFile } from '@/lib/record/patient-file';
import { calendarDay } from '@/lib/units/calendar-day';
import { rowsOf } from '@/tests/properties/real-ladders';

/** What a person would answer of the units; a test says so where the table is in others. */
const METRIC = { unit: 'cm', heightUnit: 'cm', weightUnit: 'kg' } as const;

function tableOf(text: string) {
  const read = textTable(text);
  if (read.kind !== 'read') throw new Error(read.reason);
  return read.table;
}

function brought(text: string, answers: Partial<Mapping>) {
  const table = tableOf(text);
  const mapping = { ...guessMapping(table), ...METRIC, ...answers };
  expect(unanswered(mapping, table)).toEqual([]);
  return readSpreadsheet(table, mapping, calendarDay('2026-11-25'));
}

/** The volume that the program finds for a limb of the first visit, ml. */
function volumeOf(file: PatientFile | undefined, side: string): number {
  const { limbs } = analysePatient(recordOfFile(file as PatientFile), DEFAULT_POLICY, calendarDay('2026-11-25'));
  const volume = limbs.find(({ series }) => series.side === side)?.visits[0]?.volume;
  if (!volume || isNoAnswer(volume)) throw new Error('no volume');
  return volume.volumeMl;
}

/** Frusta by their radii, ml: V = π h (r² + r R + R²) / 3. Closed form of a truncated cone, cm. */
function byRadii(rungs: readonly (readonly [placeCm: number, girthCm: number])[]): number {
  return rungs.slice(1).reduce((sum, [place, girth], index) => {
    const [before, lower] = rungs[index] ?? [0, 0];
    const [r, R] = [lower / (2 * Math.PI), girth / (2 * Math.PI)];
    return sum + (Math.PI * Math.abs(place - before) * (r * r + r * R + R * R)) / 3;
  }, 0);
}

const WHO = { reference: 'HL-1', born: '1990-01-31', sex: 'F' } as const;

describe('a chart with a column a visit and places down the side', () => {
  it('both legs of real people come in, their volumes as by radii (yeadon sample ladders)', () => {
    for (const person of ['female1', 'male1', 'male4']) {
      const rows = rowsOf('yeadon_sample_ladders.csv').filter((row) => row.person === person && row.limb === 'leg');
      const of = (side: string) => rows.filter((row) => row.side === side);
      const line = (row: Record<string, string>, index: number) =>
        `${row.distance_from_origin_cm} ${row.level?.replaceAll('_', ' ')}\t${row.circumference_cm}\t${of('R')[index]?.circumference_cm}`;
      const text = `place\t02/03/2026 L\t02/03/2026 R\n${of('L').map(line).join('\n')}\nheight\t170.5\t\n`;
      const { patients, faults } = brought(text, { ...WHO, dayOrder: 'dmy', limb: 'leg', zero: 'hip joint centre' });
      expect(faults).toEqual([]);
      expect(patients[0]?.visits.map(({ day, height }) => [day, height?.text])).toEqual([['2026-03-02', '170.5 cm']]);
      for (const [side, word] of [
        ['L', 'left'],
        ['R', 'right'],
      ] as const) {
        const distances = of('L').map((row) => Number(row.distance_from_origin_cm));
        const expected = byRadii(of(side).map((row, index) => [distances[index] ?? 0, Number(row.circumference_cm)]));
        expect(volumeOf(patients[0], word)).toBeCloseTo(expected, 6);
      }
    }
  });

  it('reads sides in a second row below merged days, inches with fractions, landmarks and a landmark’s distance', () => {
    const text = [
      'place;Mar 2, 2026;;Jun 1, 2026;',
      ';R;L;R;L',
      'ankle;9 1/4;9;9 3/8;9 1/8',
      '4;11;10¾;11 1/2;11',
      '14 knee;15;14 7/8;15 1/4;15',
      'gluteal fold at;30;29 1/2;30 1/4;30',
      'weight;141;;140 1/2;',
    ].join('\r\n');
    const { patients, faults } = brought(text, { ...WHO, unit: 'in', weightUnit: 'lb', limb: 'leg', zero: 'ankle-crease' });
    expect(faults).toEqual([]);
    expect(
      patients[0]?.visits.map(({ day, weight, ladders }) => [
        day,
        weight?.text,
        ladders.map(({ side, rungs, landmarks }) => [
          side,
          rungs.map(({ girth }) => girth?.text),
          landmarks.map(({ landmark, distance }) => `${landmark} ${distance.text}`),
        ]),
      ]),
    ).toEqual([
      [
        '2026-03-02',
        '141 lb',
        [
          ['right', ['9 1/4', '11', '15'], ['knee 14', 'gluteal-fold 30']],
          ['left', ['9', '10¾', '14 7/8'], ['knee 14', 'gluteal-fold 29 1/2']],
        ],
      ],
      [
        '2026-06-01',
        '140 1/2 lb',
        [
          ['right', ['9 3/8', '11 1/2', '15 1/4'], ['knee 14', 'gluteal-fold 30 1/4']],
          ['left', ['9 1/8', '11', '15'], ['knee 14', 'gluteal-fold 30']],
        ],
      ],
    ]);
  });

  it('names each bad cell by line and column, and brings nobody in', () => {
    const text = 'place,2026-03-02,2026-06-01\n0,21.5,1.2.3\ncalf,30,31\n8,24,\n';
    const { patients, faults } = brought(text, { ...WHO, limb: 'leg', side: 'right', zero: 'ankle-crease' });
    expect(patients).toEqual([]);
    expect(faults.map(({ line, column }) => [line, column])).toEqual([
      [2, '2026-06-01 (column C)'],
      [3, 'place'],
    ]);
  });
});

describe('a table with a row a visit and places across', () => {
  const SLACK = ['ankle_min', 'calf_max', 'knee_mid_patella', 'distal_thigh', 'mid_thigh', 'proximal_thigh'] as const;
  const PLACES = [0, 16, 34, 42, 52, 66];

  it('120 women come in from semicolons and decimal commas: rows, rungs and each volume as by radii (Slack 1997)', () => {
    const rows = rowsOf('slack1997_women_ladders.csv');
    const comma = (text: string | undefined) => (text ?? '').replace('.', ',');
    const header = `Subject;Date;Date of birth;Sex;Height;Weight;${PLACES.join(';')}`;
    const lines = rows.map(
      (row) =>
        `W-${row.row};02.03.2026;31.01.2004;F;${comma(row.height_cm)};${comma(row.weight_kg)};${SLACK.map((name) => comma(row[name])).join(';')}`,
    );
    const { patients, faults } = brought(`${header}\r\n${lines.join('\r\n')}\r\n`, { limb: 'leg', side: 'right', zero: 'ankle-crease' });
    expect(faults).toEqual([]);
    expect(patients).toHaveLength(120);
    for (const [index, file] of patients.entries()) {
      const taped = SLACK.map((name, place) => [PLACES[place] ?? 0, Number(rows[index]?.[name])] as const).filter(([, girth]) => girth > 0);
      expect(file.visits[0]?.ladders[0]?.rungs.filter(({ girth }) => girth)).toHaveLength(taped.length);
      expect(volumeOf(file, 'right')).toBeCloseTo(byRadii(taped), 6);
    }
  });

  it('608 adults come in inches to the eighth, both sides in one row (ANSUR II)', () => {
    const rows = rowsOf('ansur2_2012_limbs_every_tenth.csv');
    const girths = ['anklecircumference', 'calfcircumference', 'lowerthighcircumference', 'thighcircumference'] as const;
    const eighths = (mm: string | undefined) => {
      const parts = Math.round(Number(mm) / 25.4 / 0.125);
      return parts % 8 === 0 ? String(parts / 8) : `${Math.floor(parts / 8)} ${parts % 8}/8`;
    };
    const header = `id,visit,${[0, 6, 14, 24].flatMap((place) => [`R ${place}`, `L ${place}`]).join(',')}`;
    const lines = rows.map(
      (row) => `A-${row.row}-${row.sex},3/25/2026,${girths.flatMap((name) => [eighths(row[name]), eighths(row[name])]).join(',')}`,
    );
    const { patients, faults } = brought([header, ...lines].join('\n'), {
      born: '1990-01-31',
      sex: 'X',
      unit: 'in',
      limb: 'leg',
      zero: 'ankle-crease',
    });
    expect(faults).toEqual([]);
    expect(patients).toHaveLength(608);
    expect(patients.flatMap(({ visits }) => visits.flatMap(({ ladders }) => ladders.flatMap(({ rungs }) => rungs)))).toHaveLength(608 * 8);
    for (const [index, file] of patients.entries()) {
      const taped = girths.map(
        (name, place) =>
          [([0, 6, 14, 24][place] ?? 0) * 2.54, Math.round(Number(rows[index]?.[name]) / 25.4 / 0.125) * 0.125 * 2.54] as const,
      );
      expect(volumeOf(file, 'left')).toBeCloseTo(byRadii(taped), 6);
    }
  });

  it('children with gaps keep their gaps, and one whose figures cannot be read stays out alone (Snyder 1977)', () => {
    const rows = rowsOf('snyder1977_limbs_every_tenth.csv').filter((row) => row.ankle_circ && row.calf_circ);
    const cm = (mm: string | undefined) => (mm ? String(Number(mm) / 10) : '');
    const lines = rows.map(
      (row, index) =>
        `C-${row.row}\t2026-03-02\t2015-02-17\t${row.sex}\t${cm(row.ankle_circ)}\t${index === 5 ? '1.2.3' : cm(row.calf_circ)}\t${cm(row.upper_thigh_circ)}`,
    );
    const text = `ref\tdate\tdob\tsex\t0\t16\t45\n${lines.join('\n')}\n`;
    const { patients, faults } = brought(text, { limb: 'leg', side: 'left', zero: 'ankle-crease' });
    expect(patients).toHaveLength(rows.length - 1);
    expect(faults).toEqual([{ line: 7, column: '16 (column F)', reason: expect.any(String) }]);
    const girths = patients.flatMap(({ visits }) =>
      visits.flatMap(({ ladders }) => ladders.flatMap(({ rungs }) => rungs.filter(({ girth }) => girth))),
    );
    const filled = rows
      .filter((_, index) => index !== 5)
      .flatMap((row) => [row.ankle_circ, row.calf_circ, row.upper_thigh_circ].filter(Boolean));
    expect(girths).toHaveLength(filled.length);
  });

  it('a row whose day cannot be read leaves its patient out whole', () => {
    const text = 'ref,date,0,8\nA,2026-03-02,20,22\nA,spring,20,22\nB,2026-03-02,20,22\n';
    const { patients, faults } = brought(text, {
      born: '1990-01-31',
      sex: 'F',
      limb: 'leg',
      side: 'left',
      zero: 'ankle-crease',
      dayOrder: 'ymd',
    });
    expect(patients.map(({ details }) => details.reference)).toEqual(['B']);
    expect(faults).toMatchObject([{ line: 3, column: 'date (column B)' }]);
  });
});

describe('what a table does not say', () => {
  it('is asked, never guessed: order of day and month, unit, limb, zero, who', () => {
    const table = tableOf('date,0,8\n02/03/2026,20,22\n04/05/2026,20,22\n');
    const mapping = guessMapping(table);
    expect(mapping).toMatchObject({ layout: 'visits-down', dayOrder: null, unit: '', limb: '', side: '', zero: '' });
    expect(unanswered(mapping, table)).toEqual(['dayOrder', 'unit', 'reference', 'born', 'sex', 'limb', 'zero']);
  });

  it('asks the unit of heights and weights where one of them names none, and not where each names its own', () => {
    const bare = tableOf('place,2026-03-02\n0 cm,20\nheight,64\nweight,140 lb\n');
    expect(unanswered(guessMapping(bare), bare)).toEqual(['heightUnit', 'reference', 'born', 'sex', 'limb', 'zero']);
    const rows = tableOf('date,height,weight,0 cm\n2026-03-02,64 in,63.5,20\n');
    expect(unanswered(guessMapping(rows), rows)).toEqual(['weightUnit', 'reference', 'born', 'sex', 'limb', 'zero']);
  });

  // Units as people write them in headings and cells: common practice.
  it.each([
    ['nothing', 'date,0,8\n2026-03-02,20,22\n', ['', '', '']],
    ['its places', 'date,0,8 cm\n2026-03-02,20,22\n', ['cm', '', '']],
    ['its places with words', 'date,0,8 cm calf\n2026-03-02,20,22\n', ['cm', '', '']],
    ['its girths', 'date,0,8\n2026-03-02,9 1/4 in,11\n', ['in', '', '']],
    ['a stroke', 'place,2026-03-02\n0,9\n4,11½″\n', ['in', '', '']],
    ['the corner of a chart', 'place (cm),2026-03-02\n0,20\n8,22\n', ['cm', '', '']],
    ['headings of height and weight', 'date,Height (cm),"Weight, kg",0,8\n2026-03-02,165,60,20,22\n', ['', 'cm', 'kg']],
    ['rows of height and weight', 'place,2026-03-02\n0,9\nheight,5 ft 4 in\nweight lb,140\n', ['', 'in', 'lb']],
    ['two units, so none', 'date,0,8\n2026-03-02,20 cm,8 in\n', ['', '', '']],
  ])('a table says its units by %s', (_name, text, said) => {
    const { unit, heightUnit, weightUnit } = guessMapping(tableOf(text));
    expect([unit, heightUnit, weightUnit]).toEqual(said);
  });

  it.each([
    [['02/03/2026', '25/03/2026'], ['dmy']],
    [['02/03/2026', '03/25/2026'], ['mdy']],
    [['02/03/2026'], ['dmy', 'mdy']],
    [['2026-03-02'], ['ymd']],
    [['02/03/26'], ['dmy', 'mdy']],
  ])('the days %j can be read as %j', (texts, orders) => {
    expect(ordersOf(texts)).toEqual(orders);
  });

  it('days are read in the order that was chosen, and refused when the calendar has none', () => {
    expect(spreadsheetDay('02/03/2026', 'dmy', null)).toMatchObject({ value: '2026-03-02' });
    expect(spreadsheetDay('02/03/2026', 'mdy', null)).toMatchObject({ value: '2026-02-03' });
    expect(spreadsheetDay('2 March 2026', 'ymd', null)).toMatchObject({ value: '2026-03-02' });
    expect(spreadsheetDay('30/02/2026', 'dmy', null)).toMatchObject({ kind: 'refused' });
    expect(spreadsheetDay('2/3/26', 'dmy', 2026)).toMatchObject({ value: '2026-03-02' });
    expect(spreadsheetDay('2/3/27', 'dmy', 2026)).toMatchObject({ value: '1927-03-02' });
    expect(spreadsheetDay('2/3/27', 'dmy', 1999)).toMatchObject({ value: '1927-03-02' });
    expect(spreadsheetDay('2/3/26', 'dmy', null)).toMatchObject({ kind: 'refused', reason: expect.stringContaining('two figures') });
  });

  it.each([
    ['8', { kind: 'distance', distance: '8' }],
    ['8 cm', { kind: 'distance', distance: '8 cm' }],
    ['12,5 calf', { kind: 'distance', distance: '12,5', words: 'calf' }],
    ['34 knee', { kind: 'distance', distance: '34', landmark: 'knee' }],
    ['Ankle crease', { kind: 'distance', distance: '0' }],
    ['distance to knee', { kind: 'landmark-at', landmark: 'knee' }],
    ['Weight', { kind: 'body', of: 'weight' }],
    ['calf', { kind: 'unknown' }],
    ['8 in', { kind: 'unknown' }],
  ])('the place “%s” is %j', (text, label) => {
    expect(placeLabel(text, 'leg', 'cm', 'ankle-crease')).toMatchObject(label);
  });

  it.each([
    ['R 8', 'right', '8'],
    ['left 12', 'left', '12'],
    ['2026-03-02 L', 'left', '2026-03-02'],
    ['R', 'right', ''],
    ['rest', undefined, 'rest'],
  ])('the heading “%s” is of side %s, then “%s”', (text, side, rest) => {
    expect(sideIn(text)).toEqual({ side, rest });
  });
});

describe('a text that is no table', () => {
  it.each([
    ['one column', 'a\nb\nc\n'],
    ['nothing', ''],
    ['an open quote', 'a,b\n"1,2\n3,4\n'],
  ])('is refused with a reason: %s', (_name, text) => {
    expect(textTable(text)).toMatchObject({ kind: 'refused' });
  });

  it('is refused when it is wider than any ladder', () => {
    expect(textTable(`${'1,'.repeat(1200)}1\n`)).toMatchObject({ kind: 'refused' });
  });

  it('cuts at semicolons when commas are decimal marks', () => {
    expect(tableOf('0;12,5\n4;13,1\n')).toMatchObject({ delimiter: ';', rows: [{ cells: ['0', '12,5'] }, { cells: ['4', '13,1'] }] });
  });
});

describe('what falls away or changes its meaning is asked about, never dropped', () => {
  it('a place counted from another place than the zero is refused by its cell: 5 above knee is not 5 above the ankle', () => {
    for (const words of ['5 above knee', '2 below elbow', '10 cm proximal to the crease'])
      expect(placeLabel(words, words.includes('elbow') ? 'arm' : 'leg', 'cm', 'ankle-crease')).toMatchObject({ kind: 'unknown' });
    const { patients, faults } = brought('day\t0\t5 above knee\n2026-03-02\t21\t36\n', {
      ...WHO,
      limb: 'leg',
      side: 'left',
      zero: 'ankle-crease',
    });
    expect([patients, faults.map(({ column }) => column)]).toEqual([[], ['5 above knee (column C)']]);
  });

  it('inch headings, landmarks of either limb and a bare landmark are places from the first look on', () => {
    const roles = (header: string) => guessMapping(tableOf(`${header}\n${header.replace(/[^\t]+/g, '1')}\n`)).roles;
    expect(roles('day\t0 in\t3 in\t6 in\telbow at\tAnkle\tremarks 2')).toEqual([
      'day',
      'place',
      'place',
      'place',
      'place',
      'place',
      'ignore',
    ]);
    const { patients, faults } = brought('day\t0 in\t3 in\t6 in\n2026-03-02\t8\t9\t10\n', {
      ...WHO,
      unit: 'in',
      limb: 'leg',
      side: 'left',
      zero: 'ankle-crease',
    });
    expect(faults).toEqual([]);
    expect(patients[0]?.visits[0]?.ladders[0]?.rungs.map(({ girth }) => girth?.text)).toEqual(['8', '9', '10']);
  });

  it('a visit headed with its unit is a visit; one in the other unit is named', () => {
    const text = 'place\t2026-05-08 (in)\t2026-06-08 (in) R\n0\t8\t8 1/4\n3\t9\t9\n';
    const mapping = guessMapping(tableOf(text));
    expect([mapping.layout, mapping.roles]).toEqual(['places-down', ['place', 'visit', 'visit']]);
    const read = brought(text, { ...WHO, unit: 'in', limb: 'leg', side: 'right', zero: 'ankle-crease' });
    expect([read.faults, read.patients[0]?.visits.map(({ day }) => day)]).toEqual([[], ['2026-05-08', '2026-06-08']]);
    const other = brought(text, { ...WHO, unit: 'cm', limb: 'leg', side: 'right', zero: 'ankle-crease' });
    expect(other.faults.map(({ column }) => column)).toEqual(['2026-05-08 (in) (column B)', '2026-06-08 (in) R (column C)']);
  });

  it('a date’s serial number is neither a girth nor a day', () => {
    const answers = { ...WHO, limb: 'leg', side: 'left', zero: 'ankle-crease' } as const;
    const { faults } = brought('day\t0\t8\n2026-03-02\t21\t46085\n', answers);
    expect(faults[0]?.reason).toMatch(/larger than any limb\. Is it the serial number of a date\?/);
    expect(spreadsheetDay('46085', 'dmy', null)).toMatchObject({ kind: 'refused', reason: expect.stringContaining('serial number') });
  });

  it('columns left out are always named, those with nothing in them are not', () => {
    const table = tableOf('day\t0\tstitch\tempty\n2026-03-02\t21\t4\t\n');
    expect(columnsLeftOut(table, guessMapping(table))).toEqual(['stitch (column C)']);
  });
});
