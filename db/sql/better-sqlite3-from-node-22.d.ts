declare module 'better-sqlite3-from-node-22' {
  import BetterSqlite from 'better-sqlite3';

  export default BetterSqlite;
}
