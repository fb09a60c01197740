/** How often a write that lost to another one is tried, the first time counted. */
const TRIES = 6;

/**
 * Runs a write again when PostgreSQL undid it in favour of another: a deadlock (40P01) or a serialisation failure (40001).
 *
 * Such a write has left nothing behind, so that running it again is safe. Any other error is thrown as it is. SQLite writes one by one.
 * Source: PostgreSQL manual, chapter 13.5 on serialisation failure handling.
 */
export async function tryAgain<T>(run: () => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await run();
    } catch (error) {
      if (attempt >= TRIES || !lostToAnother(error)) throw error;
    }
  }
}

function lostToAnother(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  if ('code' in error && (error.code === '40P01' || error.code === '40001')) return true;
  return lostToAnother(error.cause);
}
