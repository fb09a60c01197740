import fs from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readIncoming } from '@/app/_exchange/read-incoming';
import { setWorkbook } from '@/app/_exchange/set-workbook';
import { takenFrom } from '@/app/_exchange/taken-from';
import { figuresKey } from '@/lib/exchange/same-visit';
import { anyFile } from '@/tests/properties/made-up-files';
import { comparable, isWritable, PEOPLE, PLAIN, partOfPerson, TODAY } from '@/tests/spreadsheets/made-up-set';

async function* outgoing(files: readonly (typeof PEOPLE)[number][]) {
  for (const file of files) yield { patientId: file.details.reference, file };
}

async function back(bytes: Uint8Array) {
  const taken = await takenFrom('set.xlsx', bytes, '');
  if (taken.kind === 'refused') throw new Error(taken.reason);
  expect(taken.upload.form).toBe('set');
  return readIncoming(taken.upload, null, TODAY);
}

describe('a set as a workbook', () => {
  it('comes back from our own reader to the letter: fractions, references, times, control characters, formulas', async () => {
    const files = [
      ...PEOPLE,
      ...fc
        .sample(anyFile.filter(isWritable), { numRuns: 12, seed: 77 })
        .map((file, at) => ({ ...file, details: { ...file.details, reference: `W-${at}` } })),
    ];
    const made = await setWorkbook(outgoing(files), partOfPerson, TODAY);
    if (made.kind === 'refused') throw new Error(made.reason);
    const read = await back(made.bytes);
    expect([read.faults, read.said]).toEqual([[], []]);
    expect(read.patients.map(comparable)).toEqual(files.map(comparable));
  });

  it('writes words that the writer takes for its own, as they are', async () => {
    const [one] = PEOPLE;
    if (!one) throw new Error('nobody');
    const words = ['valueOf', 'constructor', '__proto__', '\ue000\ue001x', '_x000D_', '\u0001\r'];
    const kept = words.slice(0, -1);
    const files = words.map((note, at) => ({ ...one, details: { ...one.details, reference: `N-${at}`, note } }));
    const made = await setWorkbook(outgoing(files), partOfPerson, TODAY);
    if (made.kind === 'refused') throw new Error(made.reason);
    const read = await back(made.bytes);
    expect(read.patients.map(({ details }) => details.note)).toEqual(kept);
    expect(read.faults.map(({ reason }) => reason)).toEqual(['N-5: details, note: holds a character that is none.']);
  });

  it.each(['en-US', 'de-DE'])('comes back unchanged after LibreOffice opened and saved it in %s (a recorded file)', async (language) => {
    const saved = fs.readFileSync(path.resolve(import.meta.dirname, `../reference/workbooks/sets/${language}.xlsx`));
    const read = await back(saved);
    expect(read.faults).toEqual([]);
    // Recorded before sets had a table of phases: such a set is read as one without any.
    expect(read.patients.map(comparable)).toEqual(PEOPLE.map((one) => comparable({ ...one, phases: [] })));
  });

  it('saved as .ods it is refused in one clear sentence', async () => {
    const saved = fs.readFileSync(path.resolve(import.meta.dirname, '../reference/workbooks/sets/en-US.ods'));
    const taken = await takenFrom('set.ods', saved, '');
    expect(taken).toEqual({ kind: 'refused', reason: expect.stringContaining('OpenDocument workbook (.ods)') });
  });

  it.each(['en-US', 'de-DE'])(
    'its tables opened and saved as CSV by LibreOffice in %s come back equal or are refused by cell (recorded files)',
    async (language) => {
      const folder = path.resolve(import.meta.dirname, `../reference/workbooks/sets/${language}-csv`);
      const texts = Object.fromEntries(fs.readdirSync(folder).map((name) => [name, fs.readFileSync(path.join(folder, name), 'utf8')]));
      const read = readIncoming({ fileName: 'set', form: 'set', text: JSON.stringify(texts) }, null, TODAY);
      if (read.faults.length === 0) {
        const figures = ({ visits }: (typeof PLAIN)[number]) => visits.map(figuresKey);
        expect(read.patients.map(figures)).toEqual(PLAIN.map(figures));
        expect(read.said?.join()).toContain('Another program changed');
      } else {
        expect(read.patients).toEqual([]);
        expect(read.faults[0]).toMatchObject({ file: expect.stringMatching(/\.csv$/), line: expect.any(Number) });
      }
    },
  );
});
