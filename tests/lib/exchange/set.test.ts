import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { readClockTime } from '@/lib/exchange/clock-time';
import { csvText } from '@/lib/exchange/csv-text';
import { exactDecimal, partsOfDecimal } from '@/lib/exchange/exact-decimal';
import { DICTIONARY_FILE, dataDictionary, fileNameOf } from '@/lib/exchange/set/data-dictionary';
import { defused, undefused } from '@/lib/exchange/set/defused';
import { readSet } from '@/lib/exchange/set/read-set';
import { setCounter } from '@/lib/exchange/set/set-tally';
import { headerLine, linesOf, SET_TABLES, type SetStyle } from '@/lib/exchange/set/write-set';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { groupedBy } from '@/lib/record/grouped-by';
import { type PatientFile, recordOfFile } from '@/lib/record/patient-file';
import { addDays, calendarDay, daysBetween } from '@/lib/units/calendar-day';
import { REPLIES } from '@/tests/lib/made-up-noted';
import { anyFile, anyMeasuredFile, anyWords } from '@/tests/properties/made-up-files';

const TODAY = calendarDay('2026-11-25');
const RAW: SetStyle = { research: false, defused: false };

function setOf(
  files: readonly PatientFile[],
  style: SetStyle,
  idOf: (file: PatientFile, index: number) => string = (_file, index) => `S${index + 1}`,
): Map<string, string> {
  const parts = files.map((file, index) => ({
    subjectId: idOf(file, index),
    file,
    analysis: () => analysePatient(recordOfFile(file), DEFAULT_POLICY, TODAY),
  }));
  const counter = setCounter();
  const tables = SET_TABLES.map(
    (table) =>
      [
        fileNameOf(table),
        headerLine(table, style) + parts.map((part) => counter.noted(table, part, linesOf(table, part, style))).join(''),
      ] as const,
  );
  return new Map([...tables, [DICTIONARY_FILE, JSON.stringify(dataDictionary(style, TODAY, counter.tally()))]]);
}

/** Visits get new ids within the set. */
function asRead(file: PatientFile, subject: string): PatientFile {
  const idOf = new Map(file.visits.map(({ id }, index) => [id, `${subject}-v${index + 1}`]));
  return {
    ...file,
    visits: file.visits.map((visit) => ({ ...visit, id: idOf.get(visit.id) ?? '' })),
    pieces: file.pieces.map((piece) => ({ ...piece, cutFromVisitId: idOf.get(piece.cutFromVisitId ?? '') ?? null })),
    orders: file.orders.map((order) => ({ ...order, cutFromVisitId: idOf.get(order.cutFromVisitId) ?? '' })),
    writings: [],
  };
}

describe('the set of tables', () => {
  it('a set from before second measurings of named measures is read; one with half of their columns is refused', () => {
    const [file] = fc.sample(
      anyMeasuredFile.filter(({ visits }) => visits.length > 0),
      { numRuns: 1, seed: 22 },
    ) as [PatientFile];
    const once: PatientFile = {
      ...file,
      orders: [],
      visits: file.visits.map((visit) => ({ ...visit, measures: (visit.measures ?? []).map(({ again: _gone, ...one }) => one) })),
    };
    const set = setOf([once], RAW);
    const name = [...set.keys()].find((one) => one.includes('named_measure')) ?? '';
    const rows = parse(set.get(name) ?? '') as string[][];
    const without = (cut: (column: string) => boolean) => {
      const kept = (rows[0] ?? []).flatMap((column, at) => (cut(column) ? [] : [at]));
      return new Map([...set, [name, csvText(rows.map((cells) => kept.map((at) => cells[at] ?? '')))]]);
    };
    expect(readSet(without((column) => column.startsWith('again_')))).toEqual({ kind: 'read', patients: [asRead(once, 'S1')] });
    expect(readSet(without((column) => column === 'again_mm'))).toMatchObject({ kind: 'fault', fault: { column: 'again_mm' } });
  });

  it.each([
    ['raw', RAW],
    ['safe for spreadsheets', { research: false, defused: true }],
  ])('200 made-up patients come back to the typed text, %s', (_name, style) => {
    fc.assert(
      fc.property(fc.array(anyFile, { minLength: 4, maxLength: 4 }), (files) => {
        const read = readSet(setOf(files, style));
        expect(read).toEqual({ kind: 'read', patients: files.map((file, index) => asRead(file, `S${index + 1}`)) });
      }),
      { numRuns: 50, seed: 20261125 },
    );
  });

  it.each([
    ['raw', RAW],
    ['safe for spreadsheets', { research: false, defused: true }],
  ])('named measures and affected parts come back to the typed text, %s', (_name, style) => {
    fc.assert(
      fc.property(fc.array(anyMeasuredFile, { minLength: 4, maxLength: 4 }), (files) => {
        const read = readSet(setOf(files, style));
        expect(read).toEqual({ kind: 'read', patients: files.map((file, index) => asRead(file, `S${index + 1}`)) });
      }),
      { numRuns: 25, seed: 22 },
    );
  });

  it('maker, colour, the day an order is needed by and what of it is held back come back as they were', () => {
    const ordered = fc.sample(anyFile, { numRuns: 40, seed: 9 }).find(({ orders }) => orders.length > 0) as PatientFile;
    const supply = { maker: '+the workshop by the quay', colour: 'dark blue', neededBy: calendarDay('2026-12-24'), heldBack: 1 };
    const kept = [{ from: calendarDay('2026-11-02'), as: 'held back' as const }];
    const orders = ordered.orders.map((order) => ({ ...order, ...supply }));
    const file = { ...ordered, orders, pieces: ordered.pieces.map((piece) => ({ ...piece, kept })) };
    for (const defused of [false, true])
      expect(readSet(setOf([file], { research: false, defused }))).toEqual({ kind: 'read', patients: [asRead(file, 'S1')] });
  });

  it('replies of a family come back as they were; one that cannot be read is refused by its cell', () => {
    const file = { ...(fc.sample(anyFile, { numRuns: 1, seed: 9 })[0] as PatientFile), replies: REPLIES };
    for (const defused of [false, true])
      expect(readSet(setOf([file], { research: false, defused }))).toEqual({ kind: 'read', patients: [asRead(file, 'S1')] });
    const set = setOf([file], RAW);
    for (const [from, to, column] of [
      ['23:59', '24:59', 'time'],
      [',rung,', ',slept,', 'did'],
    ] as const) {
      const broken = new Map([...set].map(([name, text]) => [name, name === 'family_reply.csv' ? text.replace(from, to) : text]));
      expect(readSet(broken)).toMatchObject({ kind: 'fault', fault: { column } });
    }
    const research = setOf([file], { research: true, defused: false }).get('family_reply.csv') ?? '';
    expect(research).not.toMatch(/Ada|Adeyemi|rubs|seam|23:59|2026/);
    expect(research).toContain('6.5');
  });

  it('a research set keeps the figures of what was looked at, by item and age, and neither words nor rater', () => {
    const file = fc.sample(anyFile, { numRuns: 1, seed: 7 })[0] as PatientFile;
    const born = calendarDay('2018-01-01');
    const seen = { kind: 'itch', version: '1', day: calendarDay('2018-01-29'), figures: { now: 7 }, rater: 'RA', words: 'worse at night' };
    const observations = [{ ...seen, choice: null, side: null, place: null, gone: null }];
    const set = setOf([{ ...file, details: { ...file.details, born }, observations }], { research: true, defused: false });
    expect(set.get('observed_figure.csv')?.split(/\r?\n/).slice(0, 2)).toEqual([
      'subject_id,kind,version,age_weeks,item,value',
      'S1,itch,1,4,now,7',
    ]);
    expect([...set.values()].join(' ')).not.toContain('worse at night');
  });

  it('a set from before named measures is read; one that lost their table is not', () => {
    const file = fc.sample(anyFile, { numRuns: 1, seed: 22 });
    const set = setOf(file, RAW);
    set.delete('named_measure.csv');
    expect(readSet(set)).toMatchObject({ kind: 'fault', fault: { file: 'named_measure.csv' } });
    set.set(DICTIONARY_FILE, (set.get(DICTIONARY_FILE) ?? '').replace('"named_measure":0', '"no_measure":0'));
    expect(readSet(set)).toEqual({ kind: 'read', patients: file.map((one) => asRead(one, 'S1')) });
  });

  it.each([
    ['a measure of another part', 'hand', 'right', 'foot-length', 'measure'],
    ['a measure that is none', 'hand', 'right', 'hat-size', 'measure'],
    ['a side it is not taken on', 'foot', 'middle', 'foot-length', 'side'],
    ['a part that is none', 'tail', 'right', 'foot-length', 'part'],
  ])('refuses %s, by its cell', (_name, part, side, measure, column) => {
    const [file] = fc.sample(
      anyMeasuredFile.filter(({ visits }) => visits.length > 0),
      { numRuns: 1, seed: 22 },
    );
    const set = setOf(file ? [file] : [], RAW);
    const [head, ...lines] = (set.get('named_measure.csv') ?? '').split('\r\n');
    const cells = (lines[0] ?? '').split(',');
    set.set(
      'named_measure.csv',
      [head, [...cells.slice(0, 2), part, side, measure, ...cells.slice(5)].join(','), ...lines.slice(1)].join('\r\n'),
    );
    expect(readSet(set)).toMatchObject({ kind: 'fault', fault: { file: 'named_measure.csv', line: 2, column } });
  });

  it('10,000 random words come back equal through defusing and CSV, as an independent reader sees them (RFC 4180)', () => {
    const words = fc.sample(fc.oneof(anyWords, fc.string({ unit: 'binary' })), { numRuns: 10_000, seed: 7 });
    const read = parse(csvText(words.map((word) => ['word', defused(word)])), {
      relax_column_count: true,
      record_delimiter: '\r\n',
    }) as string[][];
    expect(read.map(([, cell]) => undefused(cell ?? ''))).toEqual(words);
    const dangerous = words.filter((word) => /^[=+\-@\t\r]/.test(defused(word)));
    expect(dangerous).toEqual([]);
  });

  it('no cell of a set for spreadsheets begins like a formula but figures, whatever a reference or a card is called', () => {
    const files = fc.sample(anyFile, { numRuns: 40, seed: 3 }).map((file, index) => ({
      ...file,
      details: { ...file.details, reference: `=${index}+1` },
      cautions: file.cautions.map((caution) => ({ ...caution, card: '@card' })),
      visits: file.visits.map((visit) => ({
        ...visit,
        ladders: visit.ladders.map((ladder) => ({ ...ladder, intervalText: '+4' })),
      })),
    }));
    const style = { research: false, defused: true };
    const set = setOf(files, style, (file) => file.details.reference);
    for (const table of SET_TABLES) {
      const rows = parse(set.get(fileNameOf(table)) ?? '', { columns: true }) as Record<string, string>[];
      for (const { name, kind } of table.columns)
        for (const row of rows)
          expect([table.name, name, kind !== 'decimal' && /^[=+\-@\t\r]/.test(row[name] ?? '')]).toEqual([table.name, name, false]);
    }
    expect(readSet(set)).toMatchObject({ kind: 'read' });
  });

  it('leaves figures alone when words are defused', () => {
    const files = fc.sample(anyFile, { numRuns: 40, seed: 3 });
    const figures = (style: SetStyle) =>
      SET_TABLES.flatMap((table) => {
        const names = table.columns.filter(({ kind }) => kind === 'decimal' || kind === 'typed').map(({ name }) => name);
        const rows = parse(setOf(files, style).get(fileNameOf(table)) ?? '', { columns: true }) as Record<string, string>[];
        return rows.flatMap((row) => names.map((name) => row[name]));
      });
    expect(figures({ research: false, defused: true })).toEqual(figures(RAW));
    expect(figures(RAW).filter((cell) => cell?.startsWith('-')).length).toBeGreaterThan(0);
  });

  it.each([
    ['everything', RAW],
    ['research', { research: true, defused: false }],
  ])('the dictionary names each column of each file in order, and every value is of its datatype: %s', (_name, style) => {
    const files = fc.sample(anyFile, { numRuns: 20, seed: 11 });
    const set = setOf(files, style);
    const { tables } = dataDictionary(style, TODAY, { references: [], rows: {} });
    expect(tables.map(({ url }) => url).sort()).toEqual([...set.keys()].filter((name) => name.endsWith('.csv')).sort());
    for (const { url, tableSchema } of tables) {
      const [header, ...rows] = parse(set.get(url) ?? '') as string[][];
      expect(header).toEqual(tableSchema.columns.map(({ name }) => name));
      for (const row of rows)
        for (const [at, { datatype }] of tableSchema.columns.entries())
          expect([url, datatype, isOf(datatype, row[at] ?? '')]).toEqual([url, datatype, true]);
    }
  });

  it('the keys of the dictionary hold: primary keys name one row, foreign keys lead to one, also from volumes to ladders', () => {
    const files = fc.sample(anyFile, { numRuns: 20, seed: 12 });
    const set = setOf(files, RAW);
    const rowsIn = (url: string) => parse(set.get(url) ?? '', { columns: true }) as Record<string, string>[];
    let followed = 0;
    for (const { url, tableSchema } of dataDictionary(RAW, TODAY, { references: [], rows: {} }).tables) {
      const { primaryKey, foreignKeys = [] } = tableSchema;
      const keys = primaryKey ? rowsIn(url).map((row) => primaryKey.map((name) => row[name]).join(' ')) : [];
      expect([url, new Set(keys).size]).toEqual([url, keys.length]);
      for (const { columnReference, reference } of foreignKeys) {
        const there = new Set(rowsIn(reference.resource).map((row) => row[reference.columnReference]));
        const lost = rowsIn(url).filter((row) => row[columnReference] !== '' && !there.has(row[columnReference]));
        expect([url, columnReference, lost]).toEqual([url, columnReference, []]);
        followed += 1;
      }
    }
    expect(followed).toBeGreaterThan(10);
  });

  it('volumes and rungs stand on one scale: the stretch of a volume begins and ends at the outer girths of its ladder’s rungs', () => {
    const set = setOf(fc.sample(anyFile, { numRuns: 60, seed: 12 }), RAW);
    const rowsIn = (url: string) => parse(set.get(url) ?? '', { columns: true }) as Record<string, string>[];
    const rungs = groupedBy(
      rowsIn('rung.csv').filter(({ girth_mm }) => girth_mm !== ''),
      ({ ladder_id = '' }) => ladder_id,
    );
    const volumes = rowsIn('volume.csv').filter(({ volume_ml }) => volume_ml !== '');
    expect(volumes.length).toBeGreaterThan(5);
    for (const { ladder_id, from_distance_mm, to_distance_mm } of volumes) {
      const taped = (rungs.get(ladder_id ?? '') ?? []).map(({ distance_mm }) => Number(distance_mm));
      const ends = [Number(from_distance_mm), Number(to_distance_mm)].sort((one, other) => one - other);
      expect(ends[0]).toBeCloseTo(Math.min(...taped), 3);
      expect(ends[1]).toBeCloseTo(Math.max(...taped), 3);
    }
  });

  it('nobody’s birthday is found in a research set: a week at best, and no clock, day of export or due day to count it from', () => {
    const files = fc.sample(anyFile, { numRuns: 60, seed: 6 });
    const style = { research: true, defused: false };
    const set = setOf(files, style, (_file, index) => `X${index}`);
    const header = [...set]
      .filter(([name]) => name.endsWith('.csv'))
      .map(([, text]) => text.split('\r\n')[0])
      .join(',');
    expect(header).not.toMatch(/(^|,)(time|day|due|born|reference)(,|$)|age_days|_at(,|$)/);
    expect(JSON.parse(set.get(DICTIONARY_FILE) ?? '{}')).toMatchObject({ 'dc:created': '2026-11' });
    // Whoever knows the month of the export and takes the newest visit for its middle misses the birthday by more than a week in most.
    const visits = parse(set.get('visit.csv') ?? '', { columns: true }) as Record<string, string>[];
    const missed = files.map((file, index) => {
      const weeks = visits.filter(({ subject_id }) => subject_id === `X${index}`).map(({ age_weeks }) => Number(age_weeks));
      return weeks.length === 0
        ? Number.POSITIVE_INFINITY
        : Math.abs(daysBetween(addDays(calendarDay('2026-11-15'), -7 * Math.max(...weeks) - 3), file.details.born));
    });
    expect(missed.filter((days) => days > 7).length / missed.length).toBeGreaterThan(0.9);
  });

  it('a research set holds no name, reference, word, birth date or day', () => {
    const files = fc.sample(anyFile, { numRuns: 40, seed: 5 }).map((file, index) => ({
      ...file,
      details: { ...file.details, name: 'Zyxwv Name', reference: `REF-${index}`, note: 'Secret note' },
      visits: file.visits.map((visit) => ({ ...visit, note: 'Secret note', measurer: 'Zyxwv Name', posture: 'Secret posture' })),
    }));
    const set = setOf(files, { research: true, defused: false });
    const text = [...set]
      .filter(([name]) => name.endsWith('.csv'))
      .map(([, lines]) => lines)
      .join('');
    expect(text.length).toBeGreaterThan(10_000);
    expect(text).not.toMatch(/Zyxwv|Secret|REF-|\d{4}-\d{2}-\d{2}|Adeyemi/);
    expect(set.get('visit.csv')?.split('\r\n')[0]).toBe('subject_id,visit_id,age_weeks,occasion');
    const [first] = parse(set.get('visit.csv') ?? '', { columns: true }) as Record<string, string>[];
    expect(first?.age_weeks).toBe('567'); // 2015-02-17 to 2026-01-05: ten years of 365 days, three leap days, and 322 days are 3975 days, 567 weeks and 6 days
    expect(readSet(set)).toMatchObject({ kind: 'fault', fault: { file: DICTIONARY_FILE } });
  });

  it('a cell that was changed by hand so that text and figure disagree is named by file, line and column', () => {
    const [file] = fc.sample(
      anyFile.filter(({ visits }) => visits.some((visit) => visit.height !== null)),
      { numRuns: 1, seed: 2 },
    );
    const set = setOf([file as PatientFile], RAW);
    const table = set.get('body_measure.csv') ?? '';
    const line = table.split('\r\n').findIndex((row) => row.includes(',height,'));
    const broken = table.split('\r\n');
    broken[line] = (broken[line] ?? '').replace(/,([\d.]+)(,,,,*[^,]*,[^,]*)$/, ',1$1$2');
    set.set('body_measure.csv', broken.join('\r\n'));
    expect(readSet(set)).toMatchObject({ kind: 'fault', fault: { file: 'body_measure.csv', line: line + 1, column: 'length_mm' } });
  });

  it('a set that a spreadsheet program changed is refused by the cell: references, ids, rows; times are read as they are meant', () => {
    const [file] = fc.sample(
      anyFile.filter(({ visits }) => visits.some(({ time }) => time === '14:26')),
      { numRuns: 1, seed: 5 },
    );
    const named = (reference: string) => ({ ...(file as PatientFile), details: { ...(file as PatientFile).details, reference } });
    const set = setOf([named('00123'), named('123')], RAW, ({ details }) => details.reference);
    expect(readSet(set).kind).toBe('read');
    const saved = (change: (text: string) => string) =>
      readSet(new Map([...set].map(([name, text]) => [name, name.endsWith('.csv') ? change(text) : text])));
    // Leading noughts fall away in every table: two patients would be one.
    expect(saved((text) => text.replace(/(^|\n|,)00123/g, '$1123'))).toMatchObject({
      kind: 'fault',
      fault: { file: 'subject.csv', column: 'subject_id', reason: expect.stringContaining('two patients would become one') },
    });
    // One column alone.
    expect(saved((text) => text.replace(/,00123,/g, ',123e0,'))).toMatchObject({ fault: { file: 'subject.csv', column: 'reference' } });
    expect(saved((text) => text.replace(/\n00123,/g, '\nX,'))).toMatchObject({ kind: 'fault' });
    const twice = new Map([...set].map(([name, text]) => [name, name === 'rung.csv' ? `${text}${text.split('\r\n')[1]}\r\n` : text]));
    expect(readSet(twice)).toMatchObject({ fault: { file: 'rung.csv', reason: expect.stringMatching(/rows and was written with/) } });
    const clock = saved((text) => text.replace(/,14:26,/g, ',02:26:00 PM,').replace(/,08:05,/g, ',8:05,'));
    expect(clock).toEqual(readSet(set));
  });

  it.each([
    ['14:10', '14:10'],
    ['9:20', '09:20'],
    ['02:10:00 PM', '14:10'],
    ['12:05 am', '00:05'],
    ['12:05 p.m.', '12:05'],
    ['09:20:00', '09:20'],
    ['24:00', null],
    ['13:10 PM', null],
    ['9:20:31', null],
    ['0.5902', null],
  ])('the clock time %s is %s', (text, time) => {
    const reading = readClockTime(text);
    expect(reading.kind === 'read' ? reading.value : null).toBe(time);
  });

  it('a set that lacks a table or its dictionary is refused by name', () => {
    const set = setOf([], RAW);
    expect(readSet(new Map([...set].filter(([name]) => name !== 'rung.csv')))).toMatchObject({ fault: { file: 'rung.csv' } });
    expect(readSet(new Map([...set].filter(([name]) => name !== DICTIONARY_FILE)))).toMatchObject({ fault: { file: DICTIONARY_FILE } });
  });
});

describe('exact decimals', () => {
  it('write nanometres as millimetres and back, digit by digit', () => {
    expect(exactDecimal(374_650_000, 6)).toBe('374.65');
    expect(exactDecimal(396_875, 6)).toBe('0.396875');
    expect(exactDecimal(0, 6)).toBe('0');
    fc.assert(
      fc.property(fc.maxSafeInteger(), fc.constantFrom(1, 6, 12), (parts, decimals) => {
        expect(partsOfDecimal(exactDecimal(parts, decimals), decimals)).toBe(parts);
      }),
      { seed: 1 },
    );
  });
});

/** Whether a text is of a CSVW datatype, after XML Schema part 2: an empty cell is null. */
function isOf(datatype: string, text: string): boolean {
  if (text === '' || datatype === 'string') return true;
  if (datatype === 'json') return JSON.parse(text) !== undefined;
  const shapes: Record<string, RegExp> = {
    date: /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/,
    dateTime: /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?Z$/,
    integer: /^-?\d+$/,
    decimal: /^-?\d+(\.\d+)?$/,
  };
  return shapes[datatype]?.test(text) ?? false;
}
