import { setTimeout as pause } from 'node:timers/promises';
import { troubleOf } from './storage-trouble';

/** How often a write is tried, the first time counted. */
const TRIES = 6;

/** The first wait for a server that is gone, in milliseconds; each further one is three times as long, about 2.4 s in all. */
const FIRST_WAIT_MS = 20;

/** Undone in favour of another write: a serialisation failure, a deadlock. */
const LOST_TO_ANOTHER = ['40001', '40P01'];

/**
 * The server is gone, is going, is not up yet, or has no room for one more connection: SQLSTATE class 08, 57P01 to 57P03 and 53300, and
 * what the network says in their place.
 */
const GONE = /^(08...|57P0[123]|53300|ECONNREFUSED|ECONNRESET|EPIPE|ENOTCONN|EHOSTUNREACH|ETIMEDOUT)$/;

/** The driver has no code for a connection that ends while it waits. */
const GONE_IN_WORDS = /^(Connection terminated|Client has encountered a connection error|This socket has been ended)/;

/** A commit was sent and no answer came: whether the write was kept is not known. The same form can be sent again; it makes one row. */
export class CommitUnanswered extends Error {
  constructor(cause: unknown) {
    super('The connection was lost while a write was being committed.', { cause });
  }
}

/**
 * Runs again what has certainly left nothing behind: a write that PostgreSQL undid in favour of another, at once; one whose connection
 * was lost before its commit was sent, or was never made, after a wait that grows.
 *
 * A server undoes a transaction whose connection ends before the commit. Once the commit was sent nothing is certain: `CommitUnanswered`
 * is never tried again, and neither is a single statement outside a transaction. SQLite has no connection and writes one by one.
 * Source: PostgreSQL manual, chapter 13.5 on serialisation failure handling, appendix A on error codes, 53.2 on termination.
 */
export async function tryAgain<T>(run: () => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await run();
    } catch (error) {
      const why = whyAgain(error);
      if (attempt >= TRIES || !why) throw error;
      if (why === 'gone') await pause(FIRST_WAIT_MS * 3 ** (attempt - 1));
    }
  }
}

/** True when an error says that the server cannot be reached any more, whatever was being done. */
export function isGone(error: unknown): boolean {
  return whyAgain(error) === 'gone';
}

function whyAgain(error: unknown): 'lost to another' | 'gone' | undefined {
  if (!(error instanceof Error) || error instanceof CommitUnanswered) return undefined;
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (LOST_TO_ANOTHER.includes(code)) return 'lost to another';
  if (GONE.test(code) || GONE_IN_WORDS.test(error.message)) return 'gone';
  return whyAgain(error.cause);
}

/**
 * What a piece of work gives that nobody waits for and that leaves things as they were when it fails; undefined where nothing can be written just
 * now or the server is gone.
 */
export async function unlessUnreachable<T>(run: () => Promise<T>): Promise<T | undefined> {
  try {
    return await run();
  } catch (error) {
    if (troubleOf(error) || isGone(error) || error instanceof CommitUnanswered) return undefined;
    throw error;
  }
}
