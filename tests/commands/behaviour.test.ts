import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { csvBlocks } from '@/app/_commands/ladders/csv-blocks';
import { openLadders } from '@/app/_commands/ladders/ladders-by-patient';
import { patientText, writeDocument } from '@/app/_commands/ladders/write-document';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import { readLadderRows, readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { calendarDay } from '@/lib/units/calendar-day';
import { phasesFile } from '@/tests/lib/exchange/course-files';
import { file, row } from '@/tests/lib/exchange/files';

const TODAY = calendarDay('2026-11-25');
const SCALE = { variance: 1, n: 0 };
let folder: string;
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-behaviour-'));
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

function put(name: string, text: string): string {
  const where = path.join(folder, name);
  fs.writeFileSync(where, text);
  return where;
}

function run(command: string, given: readonly string[], input = '', env: Record<string, string> = {}) {
  const own = { DATABASE_URL: '', DB_FILE: path.join(folder, 'mistyped.db'), AUDIT_KEY: '0'.repeat(64) };
  const loader = command.endsWith('.ts') ? ['--import', 'tsx'] : [];
  const ended = spawnSync(process.execPath, [...loader, `app/_commands/${command}`, ...given], {
    env: { ...process.env, ...own, ...env },
    encoding: 'utf8',
    input,
  });
  return { code: ended.status, said: ended.stdout, refused: ended.stderr };
}

/** Three patients whose rows stand in between each other's, with a note over two lines and an empty line. */
const ROWS = ['R-1', 'R-2', 'R-1', 'R-3', 'R-2', 'R-1'].map((patient, at) =>
  row({ patient, distance: String(4 * (at + 1)), girth: String(22 + at), note: at === 2 ? '"two ""lines"",\nof words é"' : '' }),
);

describe('a ladders file read a patient at a time', () => {
  it.each([['\n'], ['\r\n'], ['\r']])('gives what the whole file gives, its lines too, with line ends %j', async (end) => {
    const text = `\ufeff${file(...ROWS.slice(0, 3), '', ...ROWS.slice(3)).replaceAll('\n', end)}`;
    const whole = readLaddersCsv(text, TODAY);
    if (whole.kind === 'fault') throw new Error(whole.fault.reason);
    const ladders = openLadders(put(`one-by-one${end.length}.csv`, text));
    expect([ladders.references, ladders.rows]).toEqual([['R-1', 'R-2', 'R-3'], 6]);
    const plain = (value: unknown) => JSON.parse(JSON.stringify(value)) as unknown;
    const parts = ladders.references.flatMap((reference) => readLadderRows(ladders.rowsOf(reference), TODAY).records);
    // The row a ladder began with is kept beside it; its line is compared below.
    expect(plain(parts)).toEqual(plain(whole.records));
    const lines = ladders.references.flatMap((reference) => ladders.rowsOf(reference).map(({ line }) => line));
    // By counting by hand: the header is line 1, the note of the third row takes two lines, then an empty one.
    expect(lines).toEqual([2, 4, 9, 3, 8, 7]);
    ladders.close();
    let written = '';
    const { patients } = analysisDocument(whole.records, DEFAULT_POLICY, TODAY, SCALE);
    await writeDocument(patients.map(patientText), DEFAULT_POLICY, TODAY, SCALE, (part) => {
      written += part;
    });
    expect(written).toBe(`${JSON.stringify(analysisDocument(whole.records, DEFAULT_POLICY, TODAY, SCALE), null, 2)}\n`);
  });

  it('writes a document of nobody as it was written whole', async () => {
    let written = '';
    await writeDocument([], DEFAULT_POLICY, TODAY, SCALE, (part) => {
      written += part;
    });
    expect(written).toBe(`${JSON.stringify(analysisDocument([], DEFAULT_POLICY, TODAY, SCALE), null, 2)}\n`);
  });

  it('cuts blocks of a large file only between records, and refuses a quote that never closes', () => {
    const many = file(...Array.from({ length: 30_000 }, (_, at) => ROWS[at % 6] ?? ''));
    const handle = fs.openSync(put('large.csv', many), 'r');
    const blocks = [...csvBlocks(handle)];
    expect(blocks.length).toBeGreaterThan(1);
    expect(Buffer.concat(blocks.map(({ bytes }) => bytes)).toString()).toBe(many);
    expect(blocks.reduce((sum, { records }) => sum + records.length, 0)).toBe(30_001);
    fs.closeSync(handle);
    expect(() => openLadders(put('open.csv', `${file()}"${'x\n'.repeat(3_000_000)}`))).toThrow('quotes');
  });
});

describe('commands', () => {
  it('read what they were given in one way, so that each knows --help and says what it does not know', () => {
    const { scripts } = JSON.parse(fs.readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
    const files = Object.values(scripts).flatMap((script) => /(?:tsx|node) (app\/_commands\/\S+)/.exec(script)?.[1] ?? []);
    expect(files.length).toBeGreaterThan(15);
    const others = files.filter((one) => !/readArguments\(|namesGiven\(/.test(fs.readFileSync(one, 'utf8')));
    expect(others).toEqual([]);
    for (const command of ['backup.ts', 'start/up.mjs']) {
      const { code, said, refused } = run(command, ['--help']);
      expect([command, code, refused]).toEqual([command, 0, '']);
      expect(said).toContain('npm run');
    }
    expect(run('start/up.mjs', ['--prot'])).toMatchObject({
      code: 1,
      said: '',
      refused: expect.stringContaining("Unknown option '--prot'"),
    });
  });

  it('make no database when its file is mistyped, and say so on standard error with 1', () => {
    for (const [command, ...given] of [
      ['ladders/import.ts', '--by', 'lead@x.example', put('x.csv', file(...ROWS))],
      ['verify-data.ts'],
    ] as const) {
      const { code, said, refused } = run(command, given);
      expect([code, said]).toEqual([1, '']);
      expect(refused).toMatch(/^There is no database at .*mistyped\.db\. Nothing was made\./);
    }
    expect(fs.existsSync(path.join(folder, 'mistyped.db'))).toBe(false);
  });

  it('read standard input for “-”, and end with 2 and a line of standard error where cells cannot be read', () => {
    const DB_FILE = path.join(folder, 'clinic', 'clinic.db');
    const lead = 'lead@x.example';
    expect(run('add-therapist.ts', ['--clinic', 'X', '--email', lead, '--name', 'L. Orme'], '', { DB_FILE }).code).toBe(0);
    const good = run('ladders/import.ts', ['--by', lead, '-', '--yes'], file(...ROWS), { DB_FILE });
    expect(good).toMatchObject({
      code: 0,
      refused: '',
      said: expect.stringContaining('3 patients with 3 visits can be brought in; 0 cells'),
    });
    expect(good.said).toContain('3 new patients');
    const spoilt = file(...ROWS, row({ patient: 'R-4', distance: '4', girth: '2x' }), row({ patient: 'R-5', distance: '4', girth: '21' }));
    const bad = run('ladders/import.ts', ['--by', lead, put('bad.csv', spoilt), '--yes'], '', { DB_FILE });
    expect(bad).toMatchObject({ code: 2, refused: expect.stringMatching(/^line 9, girth: “2x”/) });
    expect(bad.said).toContain('1 new patient');
    expect(run('ladders/import.ts', ['--by', lead, '--nonsense'], '', { DB_FILE })).toMatchObject({ code: 1, said: '' });
    const analysed = run('ladders/analyse.ts', ['-', '--today', '2026-11-25'], file(...ROWS));
    expect([analysed.code, analysed.refused]).toEqual([0, '']);
    expect((JSON.parse(analysed.said) as { patients: unknown[] }).patients).toHaveLength(3);
    const phases = (...rows: readonly string[]) => put('phases.csv', phasesFile(...rows));
    const phased = run(
      'ladders/analyse.ts',
      ['-', '--today', '2026-11-25', '--phases', phases('R-2,reduction,2026-01-01,,')],
      file(...ROWS),
    );
    const kinds = JSON.parse(phased.said) as { patients: { limbs: { visits: { phase: string | null }[] }[] }[] };
    expect(kinds.patients.map(({ limbs }) => limbs[0]?.visits[0]?.phase)).toEqual([null, 'reduction', null]);
    // Of faults in several patients the first line is named; the patient of line 2 stands last in the ladders file.
    for (const [rows, said] of [
      [['R-3,reduction,2026-01-01,2025-01-01,', 'R-1,nonsense,2026-01-01,,'], 'line 2, column until: It ends on'],
      [['R-1,reduction,2026-01-01,,', 'R-9,reduction,2026-01-01,,'], 'line 3, column patient: No ladder of R-9'],
    ] as const) {
      const given = phases(...rows);
      const refused = run('ladders/analyse.ts', ['-', '--today', '2026-11-25', '--phases', given], file(...ROWS));
      expect(refused).toMatchObject({ code: 2, said: '', refused: expect.stringContaining(`${given}: ${said}`) });
    }
    expect(run('ladders/analyse.ts', ['-'], 'nothing')).toMatchObject({
      code: 2,
      said: '',
      refused: expect.stringMatching(/^standard input: line 1/),
    });
  });
});
