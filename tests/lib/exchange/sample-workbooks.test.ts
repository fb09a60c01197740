import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { readIncoming } from '@/app/_exchange/read-incoming';
import { takenFrom } from '@/app/_exchange/taken-from';
import { faultGroups, faultTable } from '@/lib/exchange/fault-report';
import type { PatientFile } from '@/lib/record/patient-file';
import { calendarDay } from '@/lib/units/calendar-day';
import { SAMPLES } from '@/tests/spreadsheets/sample-workbooks';

const TODAY = calendarDay('2026-11-30');
const FOLDER = path.resolve(import.meta.dirname, '../../reference/workbooks');

/** Every girth of files, as `patient day side limb distance girth`. */
function girths(files: readonly PatientFile[]): readonly string[] {
  return files.flatMap(({ details, visits }) =>
    visits.flatMap(({ day, ladders }) =>
      ladders.flatMap(({ side, limb, rungs }) =>
        rungs.flatMap(({ distance, girth }) =>
          girth ? [`${details.reference} ${day} ${side} ${limb} ${distance.text} ${girth.text}`] : [],
        ),
      ),
    ),
  );
}

describe('eight workbooks as clinics have them, saved by a spreadsheet program', () => {
  it.each(Object.keys(SAMPLES))('%s comes in within three steps: choose it, answer once, bring it in', async (name) => {
    const sample = SAMPLES[name];
    if (!sample) throw new Error(name);
    const taken = await takenFrom(`${name}.xlsx`, fs.readFileSync(path.join(FOLDER, `${name}.xlsx`)), '');
    if (taken.kind === 'refused') throw new Error(taken.reason);
    const looked = readIncoming(taken.upload, null, TODAY);
    const mapping = looked.sheet?.mapping;
    if (!mapping) throw new Error('not read as a sheet');
    // What a person is asked is answered at once, and nothing else is touched.
    const read = readIncoming(taken.upload, { ...mapping, ...sample.answers }, TODAY);
    expect(read.sheet?.missing).toEqual([]);
    expect(read.faults).toEqual([]);
    expect(read.patients.map(({ details }) => details.reference)).toEqual(sample.patients);
    expect(read.patients.reduce((sum, { visits }) => sum + visits.length, 0)).toBe(sample.visits);
    const found = girths(read.patients);
    expect(found).toHaveLength(sample.girths);
    expect(found).toEqual(expect.arrayContaining([...sample.some]));
    for (const words of sample.said) expect((read.said ?? []).join(' ')).toContain(words);
    if (name === 'lost-points') expect(looked.lost).toEqual({ lost: 6, example: '22525' });
    else expect(looked.lost).toBeUndefined();
  });

  it('reads what stands above a table: whose it is', async () => {
    const taken = await takenFrom('x.xlsx', fs.readFileSync(path.join(FOLDER, 'both-legs-side-by-side.xlsx')), '');
    const mapping = taken.kind === 'taken' ? readIncoming(taken.upload, null, TODAY).sheet?.mapping : undefined;
    expect(mapping).toMatchObject({ reference: 'HL-1', born: '', sex: 'F', limb: 'leg', side: '', layout: 'visits-down' });
  });
});

describe('what could not be read', () => {
  const sheet = (text: string) => readIncoming({ fileName: 'x', form: 'spreadsheet', text }, null, TODAY);
  const answers = { reference: 'HL-1', born: '1961-04-30', sex: 'F', limb: 'leg', side: 'left', zero: 'ankle-crease', unit: 'cm' } as const;

  it('is one report: 1,200 bad cells of a column are one kind, by its first cell, and a table of all', () => {
    const text = ['Date\t0\t10', ...Array.from({ length: 1200 }, (_, at) => `2026-03-02\t22\t2${at}x`)].join('\n');
    const mapping = sheet(text).sheet?.mapping;
    if (!mapping) throw new Error('not read');
    const { faults } = readIncoming({ fileName: 'x', form: 'spreadsheet', text }, { ...mapping, ...answers }, TODAY);
    const kinds = faultGroups(faults.filter(({ column }) => column.includes('column C')));
    expect(kinds).toHaveLength(1);
    expect(kinds[0]).toMatchObject({ cells: 1200, first: { line: 2, column: '10 (column C)' } });
    expect(faultTable(faults).trim().split('\r\n')).toHaveLength(faults.length + 1);
  });

  it('leaves a table that begins with its heading as it is, and says nothing', () => {
    const read = sheet('Date;0;10\n2026-03-02;22,5;26\n');
    expect(read.said).toEqual([]);
    expect(read.sheet?.table.rows).toHaveLength(2);
  });

  it('a reference that begins like a sum is a patient; the word alone is a sum', () => {
    const text = 'Ref\tBorn\tSex\tDate\tSide\t0\nSUM-1\t1961-04-30\tF\t2026-03-02\tleft\t22\nSum\t\t\t\t\t22\n';
    const mapping = sheet(text).sheet?.mapping;
    if (!mapping) throw new Error('not read');
    const read = readIncoming(
      { fileName: 'x', form: 'spreadsheet', text },
      { ...mapping, limb: 'leg', zero: 'ankle-crease', unit: 'cm' },
      TODAY,
    );
    expect(girths(read.patients)).toEqual(['SUM-1 2026-03-02 left leg 0 22']);
    expect(read.said).toEqual(['1 row of sums or means was left out: row 3 “Sum”.']);
  });

  it('a word is taken for an empty cell in columns of figures only: sex X stays X', () => {
    const text = 'Ref\tSex\tBorn\tDate\tSide\t0\t10\tNote\nA\tX\t1961-04-30\t2026-03-02\tleft\t22\tx\t-\n';
    const mapping = sheet(text).sheet?.mapping;
    if (!mapping) throw new Error('not read');
    const read = readIncoming(
      { fileName: 'x', form: 'spreadsheet', text },
      { ...mapping, limb: 'leg', zero: 'ankle-crease', unit: 'cm' },
      TODAY,
    );
    expect(read.patients[0]?.details.sex).toBe('X');
    expect(girths(read.patients)).toEqual(['A 2026-03-02 left leg 0 22']);
  });

  it('a second table of another kind is left out by name, never mixed in', () => {
    const text = 'Date\tSide\t0\t10\n2026-03-02\tleft\t22\t26\n\t\t\t\nPiece\tDate\tWeight\tNote\nP-1\t2026-03-02\t70\tx\n';
    const mapping = sheet(text).sheet?.mapping;
    if (!mapping) throw new Error('not read');
    const read = readIncoming({ fileName: 'x', form: 'spreadsheet', text }, { ...mapping, ...answers }, TODAY);
    expect(read.said?.join(' ')).toContain('A second table, from row 4 on, has other columns and was left out.');
    expect(girths(read.patients)).toEqual(['HL-1 2026-03-02 left leg 0 22', 'HL-1 2026-03-02 left leg 10 26']);
  });
});
