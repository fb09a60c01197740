import path from 'node:path';
import { BESIDE, headFile } from '@/db/audit/audit-head';
import { getDatabase } from '@/db/client';
import { engine } from '@/db/sql/columns';
import { databaseAddress } from '@/db/sql/database';
import { fileStamp } from '@/db/sql/private-files';
import { manifestOf } from '@/db/upkeep/backup-manifest';
import { backupSqlite } from '@/db/upkeep/backup-sqlite';
import { clockDoubts } from '@/db/upkeep/clock-doubts';
import { knownHeads } from '@/db/upkeep/known-heads';
import { backupsIn, rotateBackups } from '@/db/upkeep/rotate-backups';
import { readArguments } from './read-arguments';
import { runCommand } from './run-command';

/** Backups kept when nothing else is said: two weeks of nights. Clinic default. */
const KEEP = '14';

const USAGE = `npm run backup [-- --to folder --keep 14]
  Backs up the clinic’s file while it is used, and lets older backups go. Records on a PostgreSQL server: says what to type.`;

const { values } = readArguments(USAGE, { to: { type: 'string' }, keep: { type: 'string', default: KEEP } });

/** What to type for records on a PostgreSQL server. */
const advice = (name: string) => `The records are on a PostgreSQL server: its own tools make the backup.
  pg_dump --format=custom --file=${name}.dump "$DATABASE_URL"
  npm run verify-data -- --keep-head ${name}.heads.json
Restore into an empty database, and compare its history with the heads kept then:
  createdb restored && pg_restore --exit-on-error --dbname=restored ${name}.dump
  DATABASE_URL=postgres://…/restored npm run verify-data -- --head ${name}.heads.json`;

/** Backs up the clinic's file while it is used: `npm run backup [-- --to folder --keep 14]`. Lets older backups go. */
async function backup(): Promise<string | undefined> {
  const keep = Number(values.keep);
  if (!Number.isInteger(keep) || keep < 1) return '--keep wants how many backups to keep, at least 1.';
  if (engine === 'postgres') return advice(`clinic-${fileStamp(new Date())}`);
  const file = path.resolve(databaseAddress());
  const folder = values.to ?? path.join(path.dirname(file), 'backups');
  const name = path.basename(file, '.db');
  const [database, now] = [await getDatabase(), new Date()];
  const outer = knownHeads(file, folder);
  const lacking = outer.some((one) => one.where === BESIDE && Object.keys(one.heads).length > 0)
    ? []
    : [`${headFile(file)} is missing or empty.`];
  const doubts = [...lacking, ...(await clockDoubts(database, backupsIn(folder, name), now))];
  const ended = await backupSqlite(database, name, folder, now, outer);
  if (ended.kind === 'refused') return `No backup was kept, and none was let go.\n${ended.problems.join('\n')}`;
  const { manifest } = ended;
  const rows = Object.values(manifest.rows).reduce((sum, one) => sum + one, 0);
  process.stdout.write(
    `${ended.backup}\n${manifest.bytes} bytes, ${rows} rows in ${Object.keys(manifest.rows).length} tables; pages, references, history and every value checked.\n`,
  );
  process.stdout.write(`What it should hold: ${manifestOf(ended.backup)}\n`);
  if (doubts.length > 0) return `The backup was kept, and none was let go.\n${doubts.join('\n')}`;
  for (const gone of rotateBackups(folder, name, keep)) process.stdout.write(`${gone} was let go.\n`);
  process.stdout.write('The key that seals the history is not in it: keep it elsewhere. Copy backups to another machine.\n');
  return undefined;
}

await runCommand(backup);
