import { defineConfig } from 'drizzle-kit';

/** Migrations of one engine at a time: of PostgreSQL when DATABASE_URL is set (nothing is connected to), else of SQLite. */
const postgres = Boolean(process.env.DATABASE_URL);

export default defineConfig({
  dialect: postgres ? 'postgresql' : 'sqlite',
  schema: './db/schema/schema.ts',
  out: postgres ? './db/migrations/postgres' : './db/migrations/sqlite',
  casing: 'snake_case',
});
