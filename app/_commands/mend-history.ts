import path from 'node:path';
import { parseArgs } from 'node:util';
import { engine } from '@/db/sql/columns';
import { databaseAddress } from '@/db/sql/database';
import { knownHeads } from '@/db/upkeep/known-heads';
import { brokenHistory, mendHistory } from '@/db/upkeep/mend-history';
import { personWithEmail } from './person-with-email';
import { runCommand, say } from './run-command';

const USAGE = `npm run mend-history -- --by lead@clinic.example --reason "another key was set after the restore" [--yes]
  Signs for the part of the history that was sealed with another key, or that is lost. Without --yes it only says which.`;

/** Lets a lead sign for a broken history, so that it goes on from there. The rows stay as they are. */
async function mend(): Promise<string | undefined> {
  const { values } = parseArgs({
    options: { by: { type: 'string' }, reason: { type: 'string' }, yes: { type: 'boolean', default: false } },
  });
  const { by, reason } = values;
  if (!by || !reason?.trim()) return USAGE;
  const lead = await personWithEmail(by);
  if (lead?.role !== 'lead') return `${by} is not a lead of this clinic. Only a lead signs for its history.`;
  const found = await brokenHistory(lead, engine === 'sqlite' ? knownHeads(path.resolve(databaseAddress())) : []);
  for (const problem of found.problems) say(problem);
  if (found.broken.length === 0 && found.lost.length === 0) return 'There is nothing to sign for.';
  if (!values.yes) {
    say('Nothing was changed. Compare with the newest backup first; then add --yes.');
    return undefined;
  }
  await mendHistory(lead, found, reason.trim());
  say('Signed for. The history says so, and npm run verify-data will say it every time.');
  return undefined;
}

await runCommand(mend);
