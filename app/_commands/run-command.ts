import fs from 'node:fs';
import { closeDatabase } from '@/db/client';
import { engine } from '@/db/sql/columns';
import { databaseAddress } from '@/db/sql/database';
import { DatabaseRefused } from '@/db/sql/database-refused';

/**
 * What a command does with the clinic's database: `mayCreate` makes one where there is none yet; `opensNone` is of one that works on files it is
 * told, not on the clinic's own.
 */
export type DatabaseUse = { readonly mayCreate?: boolean; readonly opensNone?: boolean };

/**
 * Runs a command to its end and lets go of the database. A text that comes back is why it did nothing: it goes to standard error, and the
 * exit code is 1; a number is the exit code. A command never makes a database by mistake: where the file is not there it says so and ends with 1. A database that cannot be used, and anything that goes wrong, is said in one line.
 */
export async function runCommand(work: () => Promise<string | number | undefined>, use: DatabaseUse = {}): Promise<void> {
  try {
    const missing = missingDatabase(use);
    const ended = missing ?? (await work());
    if (typeof ended === 'string') process.stderr.write(`${ended}\n`);
    process.exitCode = typeof ended === 'string' ? 1 : (ended ?? 0);
    await closeDatabase();
  } catch (error) {
    process.stderr.write(`${error instanceof DatabaseRefused ? error.message : whatHappened(error)}\n`);
    process.exitCode = 1;
  }
}

/** What is said when the clinic's file is not there and the command must not make one. */
function missingDatabase({ mayCreate, opensNone }: DatabaseUse): string | undefined {
  if (mayCreate || opensNone || engine === 'postgres' || fs.existsSync(databaseAddress())) return undefined;
  return `There is no database at ${databaseAddress()}. Nothing was made. Name the clinic’s file in DB_FILE.`;
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
