import { closeDatabase, getDatabase } from '@/db/client';
import { DatabaseRefused } from '@/db/database-refused';
import { hasPeople } from '@/db/people';

/**
 * Opens the clinic's database and brings it up to date, before anything else starts.
 *
 * Ends with 0; with 1 and one line when the database cannot be used; with 3 when nobody can sign in yet.
 */
try {
  await getDatabase();
  process.exitCode = (await hasPeople()) ? 0 : 3;
  await closeDatabase();
} catch (error) {
  if (!(error instanceof DatabaseRefused)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
