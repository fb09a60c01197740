import { runCommand } from '@/app/_commands/run-command';
import { getDatabase } from '@/db/client';
import { hasPeople } from '@/db/people/people';
import { databaseAddress } from '@/db/sql/database';
import { checkHistory } from '@/db/upkeep/check-data';
import { historyDoubts } from '@/db/upkeep/known-heads';

/** How many of the newest deeds of each clinic are checked at each start; `npm run verify-data` checks all. */
const NEWEST = 2000;

/**
 * Opens the clinic's database and brings it up to date, before anything else starts, and looks at the newest part of its history.
 *
 * A history that does not hold is said and does not stop the clinic. Ends with 0; with 1 and one line when the database cannot be used;
 * with 3 when nobody can sign in yet.
 */
async function check(): Promise<number> {
  const database = await getDatabase();
  const { findings } = await checkHistory(database, [], NEWEST);
  const doubts = await historyDoubts(database, databaseAddress());
  for (const problem of [...doubts, ...findings.flatMap((one) => one.problems)])
    process.stderr.write(`${problem} Run npm run verify-data.\n`);
  return (await hasPeople()) ? 0 : 3;
}

await runCommand(check, { mayCreate: true });
