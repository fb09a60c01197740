import { closeDatabase } from '@/db/client';
import { DatabaseRefused } from '@/db/sql/database-refused';

/**
 * Runs a command to its end and lets go of the database. A text that comes back is why it did nothing: it goes to standard error, and the
 * exit code is 1; a number is the exit code. A database that cannot be used, and anything that goes wrong, is said in one line.
 */
export async function runCommand(work: () => Promise<string | number | undefined>): Promise<void> {
  try {
    const ended = await work();
    if (typeof ended === 'string') process.stderr.write(`${ended}\n`);
    process.exitCode = typeof ended === 'string' ? 1 : (ended ?? 0);
    await closeDatabase();
  } catch (error) {
    process.stderr.write(`${error instanceof DatabaseRefused ? error.message : whatHappened(error)}\n`);
    process.exitCode = 1;
  }
}

/** One sentence for what nobody expected: the first line of its cause, without the places in the program where it was met. */
function whatHappened(error: unknown): string {
  let cause = error;
  while (cause instanceof Error && cause.cause instanceof Error) cause = cause.cause;
  const words = cause instanceof Error ? cause.message : String(cause);
  return `The command stopped: ${words.split('\n')[0]}. Nothing that it had not said to be done was done.`;
}

/** Says a sentence on standard output. */
export function say(sentence: string): void {
  process.stdout.write(`${sentence}\n`);
}
