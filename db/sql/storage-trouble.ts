import { setTimeout as pause } from 'node:timers/promises';

/** Why nothing can be written just now while everything can be read: another process holds the lock, the disk is full, it may only be read. */
export type StorageTrouble = 'busy' | 'full' | 'read-only';

/** How long a write waits for another process to let go, milliseconds. The process itself goes on meanwhile. */
const PATIENCE_MS = 5000;
const FIRST_WAIT_MS = 5;
const LONGEST_WAIT_MS = 100;

/** SQLite's result codes, and SQLSTATE: 53100 disk full, 25006 read-only transaction. Source: sqlite.org/rescode.html; PostgreSQL manual, appendix A. */
const CODES: readonly (readonly [RegExp, StorageTrouble])[] = [
  [/^SQLITE_(BUSY|LOCKED)/, 'busy'],
  [/^(SQLITE_FULL|SQLITE_IOERR_(WRITE|FSYNC|TRUNCATE|SHMSIZE)|53100)$/, 'full'],
  [/^(SQLITE_READONLY.*|SQLITE_CANTOPEN|25006)$/, 'read-only'],
];

/** A small write may still find room on a full disk: only a waited-for one, or one this long after, ends a trouble. Milliseconds. */
const STANDS_MS = 30_000;

type Held = typeof globalThis & { rungwiseTrouble?: { readonly kind: StorageTrouble; readonly since: number } | undefined };

/** What keeps this process from writing, as its last write met it; undefined when that one was kept. */
export function standingTrouble(): StorageTrouble | undefined {
  return (globalThis as Held).rungwiseTrouble?.kind;
}

/** The trouble an error tells of, whatever it is wrapped in. */
export function troubleOf(error: unknown): StorageTrouble | undefined {
  if (!(error instanceof Error)) return undefined;
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  return CODES.find(([pattern]) => pattern.test(code))?.[1] ?? troubleOf(error.cause);
}

/**
 * Runs a write, again and again for a while as long as another process holds the lock of the SQLite file; what it throws in the end is the
 * driver's error, with a mark (`storage-full`) by which a page knows it. SQLite undoes a write that it refuses. How it ended is remembered for the banner of the pages.
 */
export async function whenFree<T>(run: () => Promise<T>, patienceMs = PATIENCE_MS): Promise<T> {
  const until = performance.now() + patienceMs;
  for (let waitMs = FIRST_WAIT_MS; ; waitMs = Math.min(waitMs * 2, LONGEST_WAIT_MS)) {
    try {
      const written = await run();
      forget(patienceMs > 0);
      return written;
    } catch (error) {
      const trouble = troubleOf(error);
      if (trouble === 'busy' && performance.now() + waitMs < until) {
        await pause(waitMs);
        continue;
      }
      if (trouble && (trouble !== 'busy' || patienceMs > 0))
        (globalThis as Held).rungwiseTrouble = { kind: trouble, since: performance.now() };
      throw trouble && error instanceof Error ? Object.assign(error, { digest: `storage-${trouble}` }) : error;
    }
  }
}

function forget(wasWaitedFor: boolean): void {
  const held = globalThis as Held;
  const since = held.rungwiseTrouble?.since ?? 0;
  if (wasWaitedFor || performance.now() - since > STANDS_MS) held.rungwiseTrouble = undefined;
}

/** Runs a write that nobody waits for, once; undefined when nothing can be written just now. */
export function ifItCan<T>(run: () => Promise<T>): Promise<T | undefined> {
  return unlessTrouble(() => whenFree(run, 0));
}

/** What a piece of work gives; undefined when it stopped because nothing can be written just now. */
export async function unlessTrouble<T>(run: () => Promise<T>): Promise<T | undefined> {
  try {
    return await run();
  } catch (error) {
    if (troubleOf(error)) return undefined;
    throw error;
  }
}
