import { headsBeside } from '@/db/audit-head';
import { checkHistory } from '@/db/check-data';
import { closeDatabase, databaseAddress, getDatabase } from '@/db/client';
import { engine } from '@/db/columns';
import { DatabaseRefused } from '@/db/database-refused';
import { hasPeople } from '@/db/people';

/** How many of the newest deeds of each clinic are checked at each start; `npm run verify-data` checks all. */
const NEWEST = 2000;

/**
 * Opens the clinic's database and brings it up to date, before anything else starts, and looks at the newest part of its history.
 *
 * A history that does not hold is said and does not stop the clinic. Ends with 0; with 1 and one line when the database cannot be used;
 * with 3 when nobody can sign in yet.
 */
try {
  const database = await getDatabase();
  const { findings } = await checkHistory(database, engine === 'sqlite' ? headsBeside(databaseAddress()) : [], NEWEST);
  for (const problem of findings.flatMap((one) => one.problems)) process.stderr.write(`${problem} Run npm run verify-data.\n`);
  process.exitCode = (await hasPeople()) ? 0 : 3;
  await closeDatabase();
} catch (error) {
  if (!(error instanceof DatabaseRefused)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
