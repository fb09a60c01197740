import { createServer } from 'node:net';
import path from 'node:path';
import { defineConfig } from '@playwright/test';
import { chromiumPath } from './chromium-path';

const root = path.resolve(import.meta.dirname, '..');
/** Where this run keeps its database, its signed-in state and its traces: two halves of a run may go side by side. */
const own = path.join(root, process.env.E2E_FOLDER ?? 'test-results/browser');

/** Chosen once: this file is read again by each worker, which inherits the choice. */
process.env.E2E_PORT ??= String(await freePort());
const address = `http://127.0.0.1:${process.env.E2E_PORT}`;

const quiet = ['--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'];
const alone = ['--disable-component-update', '--disable-sync'];
const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];

/**
 * Browser tests against the built program, over a database file of their own that is made anew for each run.
 *
 * `setup` signs the lead in once; every other test starts as that person unless it says otherwise.
 */
export default defineConfig({
  testDir: './e2e',
  outputDir: path.join(own, 'output'),
  fullyParallel: false,
  workers: 1,
  /** Once more, on a page of its own: two cores do much beside this. What needed it is named at the end of `npm run verify`. */
  retries: 1,
  forbidOnly: true,
  timeout: 120_000,
  /** Long enough for a machine that does much else; nothing here is a timed test. */
  expect: { timeout: 15_000 },
  reporter: [['list']],
  use: {
    baseURL: address,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    /** A trace takes a picture of the page at each step, a quarter of the time of a test: asked for when one is looked into. */
    trace: process.env.E2E_TRACE ? 'retain-on-failure' : 'off',
    launchOptions: { executablePath: chromiumPath(), args: [...quiet, ...alone, ...asRoot] },
  },
  projects: [
    { name: 'setup', testMatch: 'signed-in.setup.ts' },
    { name: 'chromium', dependencies: ['setup'], use: { storageState: path.join(own, 'lead.json') } },
  ],
  webServer: {
    command: `node --import tsx tests/e2e/seed.ts && exec node --import ./app/_server/log-requests.mjs node_modules/next/dist/bin/next start -H 127.0.0.1 -p ${process.env.E2E_PORT}`,
    cwd: root,
    url: `${address}/api/health`,
    timeout: 180_000,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 5000 },
    env: {
      DATABASE_URL: '',
      DB_FILE: path.join(own, 'clinic.db'),
      LOG_FILE: path.join(own, 'server.log'),
      AUTH_SECRET: 'only for browser tests, signs nothing real',
      NEXT_TELEMETRY_DISABLED: '1',
    },
  },
});

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const found = probe.address();
      probe.close(() => (found && typeof found === 'object' ? resolve(found.port) : reject(new Error('no free port'))));
    });
  });
}
