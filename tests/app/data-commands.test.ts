import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { MIGRATION_TABLE, migrationsOf } from '@/db/sql/pending-migrations';
import { type FoundBackup, surplus } from '@/db/upkeep/rotate-backups';

/** The newest migration before the chain of deeds: `0006_documents`. */
const BEFORE_THE_CHAIN = 7;

describe('the commands that keep a clinic’s data', () => {
  let folder: string;
  let file: string;

  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-data-'));
    file = path.join(folder, 'clinic.db');
    oldClinic(file);
  });
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

  function command(name: string, given: string[], env: Record<string, string> = {}) {
    const ended = spawnSync(process.execPath, ['--import', 'tsx', `app/_commands/${name}.ts`, ...given], {
      encoding: 'utf8',
      env: { ...process.env, DATABASE_URL: '', AUDIT_KEY: '', DB_FILE: file, ...env },
    });
    return { code: ended.status, said: ended.stdout, refused: ended.stderr };
  }

  /** A clinic as the program before the chain left it: three deeds, the first two at the same moment. */
  function oldClinic(at: string): void {
    const old = new BetterSqlite(at);
    old.exec(`create table ${MIGRATION_TABLE} (id integer primary key, hash text not null, created_at numeric)`);
    for (const migration of migrationsOf('sqlite').slice(0, BEFORE_THE_CHAIN)) {
      for (const statement of migration.sql) old.exec(statement);
      old.prepare(`insert into ${MIGRATION_TABLE} (hash, created_at) values (?, ?)`).run(migration.hash, migration.folderMillis);
    }
    old.exec("insert into clinic values ('c', 'Harbour Lane', '', 'in', 'lb', 'UTC')");
    const deed = old.prepare("insert into audit values (?, 'c', ?, 'w', 'setting changed', 'setting', 'k', ?)");
    deed.run('b', 1000, '{"value":2}');
    deed.run('a', 1000, null);
    deed.run('c', 2000, '{"value":"é"}');
    old.exec("insert into user values ('w', 'c', 'lead', 'R. Adeyemi', 'lead@harbour.example', 1, null, 0, 0)");
    old.close();
  }

  function change(statements: string): void {
    const handle = new BetterSqlite(file);
    handle.exec(statements);
    handle.close();
  }

  it('deeds from before the chain are sealed in the order of their time, once, and it is said so', () => {
    const first = command('verify-data', []);
    expect(first.said).toContain(
      'Harbour Lane: a history of 4 rows, each sealed on the one before. The first 3 were written before the chain began',
    );
    expect(first.said).toContain('Everything holds.');
    expect(first.code).toBe(0);
    const handle = new BetterSqlite(file, { readonly: true });
    expect(handle.prepare('select id from audit order by number').pluck().all()).toEqual(['a', 'b', 'c', expect.any(String)]);
    handle.close();
    expect(fs.statSync(path.join(folder, 'audit-key')).mode & 0o777).toBe(0o600);
  });

  it('a backup is one file with what it holds written beside it, restored equal, and never over a file', () => {
    const made = command('backup', ['--to', path.join(folder, 'copies')]);
    expect(made.code).toBe(0);
    const backup = made.said.split('\n')[0] ?? '';
    expect(fs.readdirSync(path.join(folder, 'copies')).map((name) => name.replace(/\d{4}-.*Z/, 'MOMENT'))).toEqual([
      'clinic-MOMENT.db',
      'clinic-MOMENT.manifest.json',
    ]);
    const to = path.join(folder, 'restored', 'clinic.db');
    const mask = process.umask(0);
    const restored = command('restore', ['--from', backup, '--to', to]);
    process.umask(mask);
    for (const one of [to, path.dirname(to)])
      expect([one, fs.statSync(one).mode & 0o077], 'for its owner only, whatever the umask').toEqual([one, 0]);
    expect(restored.said).toMatch(/Compared with the backup: \d+ rows in \d+ tables, equal\./);
    expect(restored.said).toContain('The key that seals its history is not there.');
    expect(command('restore', ['--from', backup, '--to', to]).refused).toContain('is there already. Move it away first');
    fs.copyFileSync(path.join(folder, 'audit-key'), path.join(folder, 'restored', 'audit-key'));
    expect(command('verify-data', [], { DB_FILE: to }).code).toBe(0);
    expect(command('verify-data', ['--head', backup.replace('.db', '.manifest.json')]).said).toContain('Everything holds.');
    const bytes = fs.readFileSync(backup);
    bytes[bytes.length - 100] = (bytes[bytes.length - 100] ?? 0) ^ 1;
    fs.writeFileSync(backup, bytes);
    const refused = command('restore', ['--from', backup, '--to', path.join(folder, 'other.db')]);
    expect([refused.code, refused.refused]).toEqual([1, expect.stringContaining('is not the file its manifest describes')]);
    expect(fs.existsSync(path.join(folder, 'other.db'))).toBe(false);
  });

  it('a changed deed, a missing trigger and a lost head are each said in a sentence, with code 1', () => {
    change(
      `
      drop trigger audit_refuses_update;
      update audit set who = 'nobody' where number = 2;
      insert into erasure values ('e', 'c', 'p', 'w', 0, 'never asked for');
    `.replace('insert into erasure', 'pragma foreign_keys = off; insert into erasure'),
    );
    fs.rmSync(`${file}.audit-head`);
    const { code, said } = command('verify-data', []);
    expect(code).toBe(1);
    expect(said).toContain('PROBLEM  The trigger audit_refuses_update is missing.');
    expect(said).toContain(
      'PROBLEM  Harbour Lane: Row 2 of the history (setting changed) is not as it was written, or what stood before it is not.',
    );
    expect(said).toContain('clinic.db.audit-head is missing or empty.');
    expect(said).toContain('belongs to a row of patient that is not there.');
    expect(said).toMatch(/5 problems found\.\n$/);
  });

  it('erase-patient says what would go, and refuses someone who is not a lead here', () => {
    const asked = ['--reference', 'HL-1', '--reason', 'asked for'];
    expect(command('erase-patient', [...asked, '--by', 'nobody@harbour.example']).refused).toContain('is not a lead of this clinic');
    expect(command('erase-patient', [...asked, '--by', 'lead@harbour.example']).refused).toContain('no patient with the reference HL-1');
  });
});

describe('which backups go', () => {
  const made = (moments: readonly string[], more: Partial<FoundBackup> = {}) =>
    moments.map((moment, place): FoundBackup => {
      const stamp = `${moment}T03-00-00Z`;
      return { file: `clinic-${stamp}.db`, sequence: place + 1, made: `${moment}T03:00:00Z`, isGood: true, ...more };
    });
  const names = (moments: readonly string[]) => made(moments).map((one) => one.file);

  it('the newest stay, and the last of each month', () => {
    const all = made(['2026-09-29', '2026-09-30', '2026-10-30', '2026-10-31', '2026-11-23', '2026-11-24', '2026-11-25']);
    expect([...surplus(all, 2)].sort()).toEqual(names(['2026-09-29', '2026-10-30', '2026-11-23']));
  });

  it('of months only the twelve latest', () => {
    const months = Array.from(
      { length: 15 },
      (_one, month) => `${2025 + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}-15`,
    );
    expect([...surplus(made(months), 1)].sort()).toEqual(names(months.slice(0, 3)));
  });

  it.each(['2024-02-01', '2036-02-01'])('never the one made last, nor the good ones before it, when the clock says %s', (wrong) => {
    const all = made(['2026-11-20', '2026-11-21', '2026-11-22', '2026-11-23', wrong]);
    expect(surplus(all, 3)).toEqual(names(['2026-11-21', '2026-11-20']));
    const after = made(['2026-11-20', '2026-11-21', wrong, '2026-11-22', '2026-11-23', '2026-11-24']);
    expect(surplus(after, 3)).toEqual(names(['2026-11-21', '2026-11-20']));
  });

  it('a damaged one does not count among those that are kept', () => {
    const all = made(['2026-11-20', '2026-11-21', '2026-11-22', '2026-11-23']);
    const damaged = all.map((one, place) => (place >= 2 ? { ...one, isGood: false } : one));
    expect(surplus(damaged, 2)).toEqual([]);
  });
});
