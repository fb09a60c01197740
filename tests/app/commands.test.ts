import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { passphrase } from '@/app/_commands/passphrase';

describe('commands', () => {
  let folder: string;
  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-commands-'));
  });
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

  function command(file: string, given: string[], env: Record<string, string> = {}) {
    const database = { DATABASE_URL: '', DB_FILE: path.join(folder, 'clinic.db') };
    return spawnSync(process.execPath, ['--import', 'tsx', file, ...given], {
      encoding: 'utf8',
      env: { ...process.env, ...database, ...env },
    });
  }
  const add = (...given: string[]) => command('app/_commands/add-therapist.ts', given);

  it('add-therapist opens the clinic with its first person as lead, prints the passphrase, and adds others as therapists', () => {
    expect(command('app/_commands/start/check-database.ts', []).status).toBe(3);
    const nameless = add('--email', 'ra@harbour.example', '--name', 'R. Adeyemi');
    expect(nameless.status).toBe(1);
    expect(nameless.stderr).toContain('--clinic');
    const first = add('--email', 'ra@harbour.example', '--name', 'R. Adeyemi', '--clinic', 'Harbour Lane', '--units', 'cm');
    expect(first.stdout).toMatch(/R\. Adeyemi is added as lead\.[\s\S]*Password {2}([a-z]{4}-){5}[a-z]{4}\n/);
    expect(add('--email', 'kd@harbour.example', '--name', 'K. Doan').stdout).toContain('K. Doan is added as therapist.');
    const again = add('--email', 'KD@harbour.example', '--name', 'K. Doan');
    expect([again.status, again.stdout, again.stderr]).toEqual([1, '', 'KD@harbour.example can sign in already.\n']);
    expect(command('app/_commands/start/check-database.ts', []).status).toBe(0);
  });

  it('seed-demo fills an empty file and refuses a second time to fill the same', () => {
    const env = {
      DB_FILE: path.join(folder, 'demo.db'),
      DEMO_EMAIL: 'demo@x.example',
      DEMO_PASSWORD: 'made-up people only',
      DEMO_DAY: '2026-11-25',
    };
    expect(command('app/_commands/start/seed-demo.ts', [], env).stdout).toMatch(/^The made-up clinic has \d+ patients?\.\n$/);
    expect(command('app/_commands/start/seed-demo.ts', [], env).status).not.toBe(0);
  });

  it('a passphrase is six groups of two syllables, and no two of a thousand are the same', () => {
    const thousand = Array.from({ length: 1000 }, passphrase);
    expect(thousand.every((one) => /^([bdfghjklmnprstv][aeiou][bdfghjklmnprstv][aeiou]-){5}\w{4}$/.test(one))).toBe(true);
    expect(new Set(thousand).size).toBe(1000);
  });
});
