import { closeDatabase } from '@/db/client';
import { DatabaseRefused } from '@/db/database-refused';

/**
 * Runs a command to its end and lets go of the database. What it returns is why it did nothing: that goes to standard error, and the exit
 * code is 1. A database that cannot be used is said in one line.
 */
export async function runCommand(work: () => Promise<string | undefined>): Promise<void> {
  try {
    const refusal = await work();
    if (refusal) process.stderr.write(`${refusal}\n`);
    process.exitCode = refusal ? 1 : 0;
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
