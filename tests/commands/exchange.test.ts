import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = path.resolve(import.meta.dirname, '../..');

describe('npm run export and npm run import, without the server', () => {
  let folder: string;
  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-exchange-'));
    run('here', 'start/seed-demo.ts', [], {
      DEMO_EMAIL: 'lead@here.example',
      DEMO_PASSWORD: 'made-up people only',
      DEMO_DAY: '2026-11-25',
    });
    run('there', 'add-therapist.ts', ['--clinic', 'There', '--email', 'lead@there.example', '--name', 'L. Orme']);
  });
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

  function run(clinic: string, command: string, given: readonly string[], env: Record<string, string> = {}) {
    const own = { DATABASE_URL: '', DB_FILE: path.join(folder, clinic, 'clinic.db'), AUDIT_KEY: '0'.repeat(64) };
    const ended = spawnSync(process.execPath, ['--import', 'tsx', path.join('app/_commands', command), ...given], {
      cwd: root,
      env: { ...process.env, ...own, ...env },
      encoding: 'utf8',
    });
    return { code: ended.status, said: ended.stdout, refused: ended.stderr };
  }

  /** Rows of every table that is read back, in an order of their own; JSON as what it says, because the order of its keys says nothing. */
  function tablesIn(place: string): Record<string, unknown[]> {
    const computed = ['prompt.csv', 'volume.csv', 'set-metadata.json'];
    const names = fs.readdirSync(place).filter((name) => !computed.includes(name));
    return Object.fromEntries(
      names.map((name) => {
        const rows = parse(fs.readFileSync(path.join(place, name), 'utf8')) as string[][];
        const said = rows.map((row) => row.map((cell) => (/^[[{]/.test(cell) ? (JSON.parse(cell) as unknown) : cell)));
        const key = (row: readonly unknown[]) => row.filter((cell) => typeof cell === 'string').join();
        return [name, said.sort((one, other) => key(one).localeCompare(key(other)))];
      }),
    );
  }

  it('carry a clinic into another one and out again, every table equal to the last sign', () => {
    const out = path.join(folder, 'out');
    const mask = process.umask(0);
    expect(run('here', 'ladders/export.ts', ['--by', 'lead@here.example', '--to', out])).toMatchObject({ code: 0, refused: '' });
    process.umask(mask);
    const written = [out, ...fs.readdirSync(out, { recursive: true, encoding: 'utf8' }).map((name) => path.join(out, name))];
    expect(
      written.filter((one) => (fs.statSync(one).mode & 0o077) !== 0),
      'for their owner only, whatever the umask',
    ).toEqual([]);
    expect(run('there', 'ladders/import.ts', ['--by', 'lead@there.example', out]).said).toContain('Nothing was changed: add --yes.');
    expect(run('there', 'ladders/import.ts', ['--by', 'lead@there.example', out, '--yes'])).toMatchObject({ code: 0 });
    const again = path.join(folder, 'again');
    expect(run('there', 'ladders/export.ts', ['--by', 'lead@there.example', '--to', again])).toMatchObject({ code: 0 });
    const before = tablesIn(out);
    expect(before['rung.csv']?.length).toBeGreaterThan(500);
    expect(tablesIn(again)).toEqual(before);
  });

  it('print how a spreadsheet would be read and what is missing, and refuse whoever is not a lead', () => {
    const chart = path.join(folder, 'chart.csv');
    fs.writeFileSync(chart, 'place;02/03/2026\n0;21,5\n8;24\n');
    const asked = run('there', 'ladders/import.ts', ['--by', 'lead@there.example', chart]);
    expect(asked).toMatchObject({ code: 1, refused: expect.stringContaining('answer dayOrder, unit, reference, born, sex, limb, zero') });
    expect(JSON.parse(asked.said)).toMatchObject({ layout: 'places-down', roles: ['place', 'visit'] });
    expect(run('there', 'ladders/import.ts', ['--by', 'nobody@there.example', chart])).toMatchObject({ code: 1 });
  });
});
