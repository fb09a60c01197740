import Before22 from 'better-sqlite3';
import From22 from 'better-sqlite3-from-node-22';

/** The Node that this process runs on, by its first number. */
const NODE = Number(process.versions.node.split('.')[0]);

/**
 * SQLite as this Node takes it, one library in two versions (db-43): 12 ends the process on Node 24 when a statement is let go, 13 does so on
 * Node 20 as soon as a file is opened. Neither loads its own part before that.
 */
export const BetterSqlite: typeof Before22 = NODE >= 22 ? From22 : Before22;
