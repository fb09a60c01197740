import { closeDatabase } from '@/db/client';
import { DatabaseRefused } from '@/db/database-refused';

/**
 * Runs a command to its end and lets go of the database. A text that comes back is why it did nothing: it goes to standard error, and the
 * exit code is 1; a number is the exit code. A database that cannot be used is said in one line.
 */
export async function runCommand(work: () => Promise<string | number | undefined>): Promise<void> {
  try {
    const ended = await work();
    if (typeof ended === 'string') process.stderr.write(`${ended}\n`);
    process.exitCode = typeof ended === 'string' ? 1 : (ended ?? 0);
    await closeDatabase();
  } catch (error) {
    if (!(error instanceof DatabaseRefused)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
}

/** Says a sentence on standard output. */
export function say(sentence: string): void {
  process.stdout.write(`${sentence}\n`);
}
