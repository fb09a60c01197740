import type BetterSqlite from 'better-sqlite3';

/** Texts kept at most; lists of ids make many. The one kept longest goes first. */
const MOST = 500;

/**
 * Makes a connection keep the statements it has prepared, by their text: SQLite then compiles each once, not once a query.
 *
 * A statement handed out again gives rows as objects, as a new one would, until it is told otherwise. It must be run to its end at once,
 * as drizzle does: a statement in the middle of its rows cannot be run again. SQLite itself makes it anew when the schema has changed.
 */
export function cacheStatements(handle: BetterSqlite.Database): BetterSqlite.Database {
  const kept = new Map<string, BetterSqlite.Statement>();
  const prepare = handle.prepare.bind(handle);
  const prepareOnce = (text: string) => {
    const found = kept.get(text);
    if (found) return found.reader ? found.raw(false) : found;
    const made = prepare(text);
    kept.set(text, made);
    const [oldest] = kept.keys();
    if (kept.size > MOST && oldest !== undefined) kept.delete(oldest);
    return made;
  };
  return Object.assign(handle, { prepare: prepareOnce });
}
