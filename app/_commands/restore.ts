import fs from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { restoreSqlite } from '@/db/upkeep/restore-sqlite';

const USAGE = `npm run restore -- --from backups/clinic-2026-11-25T17-30-05Z.db --to data/clinic.db
  Makes a clinic's file of a backup, compares the two row by row, and overwrites nothing.`;

/** Restores a backup of a SQLite file, and says whether the two are equal. */
async function restore(): Promise<string | undefined> {
  const { values } = parseArgs({ options: { from: { type: 'string' }, to: { type: 'string' } } });
  if (!values.from || !values.to) return USAGE;
  if (!fs.existsSync(values.from)) return `${values.from} is not there.`;
  const ended = await restoreSqlite(values.from, values.to);
  if (ended.kind === 'refused') return `Nothing was restored. ${ended.why}`;
  process.stdout.write(`${values.to} is made. Compared with the backup: ${ended.rows} rows in ${ended.tables} tables, equal.\n`);
  process.stdout.write(
    `It holds the clinic as it stood at ${ended.manifest.made}. Patients erased since are back in it: erase them again.\n`,
  );
  const key = path.join(path.dirname(path.resolve(values.to)), 'audit-key');
  if (!process.env.AUDIT_KEY && !fs.existsSync(key)) {
    process.stdout.write(
      `The key that seals its history is not there. Put it at ${key}, or set AUDIT_KEY, before the program is started.\n`,
    );
  }
  return undefined;
}

const refusal = await restore();
if (refusal) process.stderr.write(`${refusal}\n`);
process.exitCode = refusal ? 1 : 0;
