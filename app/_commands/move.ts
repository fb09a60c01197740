import path from 'node:path';
import { parseArgs } from 'node:util';
import { headFile } from '@/db/audit/audit-head';
import { keepMovedHeads, moveDatabase } from '@/db/upkeep/move-database';
import { postgresToFill, postgresToRead } from '@/db/upkeep/move-postgres';
import { sqliteToFill, sqliteToRead } from '@/db/upkeep/move-sqlite';
import { runCommand, say } from './run-command';

const USAGE = `npm run move -- --from data/clinic.db --to postgres://user@host/name
npm run move -- --from postgres://user@host/name --to data/clinic.db
  Carries a whole clinic into an empty database and compares the two row by row. Stop the program first. Run again to go on after a stop.`;

/** How many rows pass between two lines of progress. */
const EVERY = 5000;

const isServer = (address: string) => /^postgres(ql)?:\/\//.test(address);

/** Moves a clinic between a SQLite file and a PostgreSQL server. */
async function move(): Promise<string | undefined> {
  const { values } = parseArgs({ options: { from: { type: 'string' }, to: { type: 'string' } } });
  if (!values.from || !values.to) return USAGE;
  const source = await (isServer(values.from) ? postgresToRead : sqliteToRead)(values.from);
  const target = await (isServer(values.to) ? postgresToFill : sqliteToFill)(values.to);
  let told = 0;
  const moved = await moveDatabase(source, target, (done, table, rows, of) => {
    if (rows < of && rows - told < EVERY) return;
    told = rows < of ? rows : 0;
    if (of > 0) say(`  ${table}: ${rows} of ${of} ${done}`);
  });
  if (moved.kind === 'moved' && !isServer(values.to)) await keepMovedHeads(target, headFile(values.to));
  await Promise.all([source.close(), target.close()]);
  if (moved.kind === 'refused') return moved.why;
  const before = moved.alreadyThere > 0 ? ` ${moved.alreadyThere} were there from a move that had been stopped.` : '';
  say(`${moved.rows} rows in ${moved.tables} tables are in ${target.name}.${before}`);
  say('Compared with the source row by row, every column of every table: equal.');
  const key = isServer(values.to) ? 'in AUDIT_KEY' : `in AUDIT_KEY, or as ${path.join(path.dirname(path.resolve(values.to)), 'audit-key')}`;
  say(`Give the program the same AUTH_SECRET as before, and the key of the history ${key}. Then run npm run verify-data.`);
  return undefined;
}

await runCommand(move);
