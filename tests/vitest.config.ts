import path from 'node:path';
import { defineConfig } from 'vitest/config';

const root = path.resolve(import.meta.dirname, '..');

export default defineConfig({
  root,
  resolve: { alias: { '@': root, 'server-only': path.join(root, 'tests/empty.ts') } },
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/e2e/**'],
    environment: 'node',
    /** Left to itself it would leave one of two cores idle. */
    maxWorkers: 2,
    /** Long enough for a machine that does much else. */
    testTimeout: 240_000,
    hookTimeout: 120_000,
  },
});
