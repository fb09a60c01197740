import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { readArguments } from '@/app/_commands/read-arguments';
import { build } from '@/app/_commands/start/prepare.mjs';
import type { Engine } from '@/db/sql/columns';
import { seeded } from './cohort/random';
import type { MadeUpClinic } from './db/made-up-clinic';

const ROOT = path.resolve(import.meta.dirname, '..');

/** A long run: its size when none is given, and the work, which gives its figures or prints them itself. */
type Campaign = { readonly size: number; readonly run: (size: number) => Promise<unknown> };

const CAMPAIGNS: Readonly<Record<string, Campaign>> = {
  cohort: { size: 2000, run: async (size) => (await import('./cohort/cohort-campaign')).cohortCampaign(size) },
  course: { size: 40, run: async (size) => (await import('./cohort/course-campaign')).courseCampaign(size) },
  outgrow: { size: 200, run: async (size) => (await import('./cohort/outgrow-campaign')).outgrowCampaign(size) },
  reader: {
    size: 1_000_000,
    run: async (size) =>
      tool('vitest/vitest.mjs', ['run', '--config', 'tests/vitest.config.ts', 'tests/properties/read-length-fuzz.test.ts'], {
        READER_TEXTS: String(size),
      }),
  },
  'doubt-rates': {
    size: 500,
    run: async (size) =>
      tool('vitest/vitest.mjs', ['run', '--config', 'tests/vitest.config.ts', 'tests/properties/doubt-rates.test.ts'], {
        DOUBT_LADDERS: String(size),
      }),
  },
  'kill-server': {
    size: 300,
    run: (size) => builtFirst(() => endServer(size, 'SIGKILL')),
  },
  'restart-server': {
    size: 20,
    run: (size) => builtFirst(() => endServer(size, 'SIGTERM')),
  },
  'large-bodies': { size: 400, run: async (size) => builtFirst(async () => (await import('./faults/floods')).floodWithBodies(size)) },
  'slow-heads': { size: 600, run: async (size) => builtFirst(async () => (await import('./faults/floods')).floodWithSlowHeads(size)) },
  'kill-save': {
    size: 3000,
    run: (size) => on('sqlite', async (at) => (await import('./faults/killed-writers')).killWriters(at, size, seeded(8101))),
  },
  'kill-one-of-three': {
    size: 100,
    run: (size) => on('postgres', async (at) => (await import('./faults/killed-writers')).killWriters(at, size, seeded(8102), 2)),
  },
  'cut-log': {
    size: 10_000,
    run: (size) => on('sqlite', async (at) => (await import('./faults/cut-log')).cutLog(at, 40, size, seeded(8103))),
  },
  'fail-step': { size: 1, run: () => failEach('sqlite') },
  'fail-step-postgres': { size: 1, run: () => failEach('postgres') },
  editors: { size: 200, run: (size) => edit('sqlite', size) },
  'editors-postgres': { size: 200, run: (size) => edit('postgres', size) },
  'same-form': {
    size: 10_000,
    run: (size) => on('sqlite', async (at) => (await import('./faults/repeated-submission')).sendAgain(at, size)),
  },
  'same-form-postgres': {
    size: 10_000,
    run: (size) => on('postgres', async (at) => (await import('./faults/repeated-submission')).sendAgain(at, size)),
  },
  'alter-values': { size: 1, run: () => alter('sqlite') },
  'alter-values-postgres': { size: 1, run: () => alter('postgres') },
  'flip-bits': {
    size: 2000,
    run: (size) => on('sqlite', async (at) => (await import('./faults/flipped-bits')).flipBits(at, size, seeded(8105))),
  },
  spreadsheets: {
    size: 1,
    run: async () => (await import('./spreadsheets/round-trips')).spreadsheetTrips(process.env.RECORD_TO),
  },
  'sample-workbooks': {
    size: 1,
    run: async () => (await import('./spreadsheets/make-samples')).makeSamples(process.env.RECORD_TO ?? 'test-results/workbooks'),
  },
  measures: { size: 150, run: async (size) => (await import('./body-model/measure-campaign')).measureCampaign(size) },
  'learn-body-tables': {
    size: 1,
    run: async () => (await import('./body-model/learn-body-table')).learnBodyTables(process.env.RECORD_TO),
  },
  tamper: {
    size: 10_000,
    run: (size) => on('sqlite', async (at) => (await import('./faults/tampering')).tamper(at, 200, size, seeded(8104))),
  },
};

/** Figures that must be nothing, or the campaign fell short; of editors who meet, some lose and are shown both versions. */
const NOTHING = ['taken', 'missed', 'half', 'problems', 'corrupt', 'torn', 'leftInTheDark', 'gone', 'lost', 'altered', 'doubled', 'merged'];

function fellShort(name: string, figures: unknown): boolean {
  if (figures === null || typeof figures !== 'object') return false;
  return Object.entries(figures).some(([figure, value]) => {
    if (!NOTHING.includes(figure) || (figure === 'lost' && name.startsWith('editors'))) return false;
    return Array.isArray(value) ? value.length > 0 : value !== 0;
  });
}

/** What runs against the built program builds it first. */
function builtFirst<T>(work: () => Promise<T>): Promise<T> {
  if (!build()) throw new Error('The program could not be built.');
  return work();
}

async function endServer(times: number, signal: NodeJS.Signals): Promise<string> {
  const given = ['test', '--config', 'tests/playwright.config.ts', 'kill-server'];
  return tool('@playwright/test/cli.js', given, { SERVER_KILLS: String(times), SERVER_SIGNAL: signal });
}

async function alter(engine: Engine): Promise<unknown> {
  const { alterEveryValue } = await import('./faults/altered-values');
  return on(engine, (at) => alterEveryValue(at, engine));
}

async function failEach(engine: Engine): Promise<unknown> {
  const { failEachStep } = await import('./faults/failing-steps');
  return on(engine, (at) => failEachStep(at, engine, ['once', 'lasting']));
}

async function edit(engine: Engine, saves: number): Promise<unknown> {
  const { editTogether } = await import('./faults/editors');
  return on(engine, (at) => editTogether(at, 50, saves, 5));
}

async function on<T>(engine: Engine, work: (at: MadeUpClinic) => Promise<T>): Promise<T> {
  const { madeUpClinic } = await import('./db/made-up-clinic');
  const at = await madeUpClinic(engine);
  try {
    return await work(at);
  } finally {
    await at.close();
  }
}

function tool(file: string, given: readonly string[], env: Readonly<Record<string, string>> = {}): string {
  const ended = spawnSync(process.execPath, [path.join(ROOT, 'node_modules', file), ...given], {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, ...env },
  });
  if (ended.status !== 0) process.exitCode = 1;
  return ended.status === 0 ? 'passed' : 'failed';
}

/**
 * The long runs: `npm run campaign` for all, `npm run campaign -- tamper [--size 10000]` for one. Each prints its figures.
 *
 * Each runs in a process of its own, because a process knows one engine.
 */
async function campaign(): Promise<void> {
  const usage = `npm run campaign [-- name] [--size 1000]\n  Without a name all of them: ${Object.keys(CAMPAIGNS).join(', ')}.`;
  const { values, positionals } = readArguments(usage, { size: { type: 'string' } }, { names: 1 });
  const [name] = positionals;
  const wanted = name === undefined ? undefined : CAMPAIGNS[name];
  if (name === undefined) {
    const short = Object.keys(CAMPAIGNS).filter((one) => tool('tsx/dist/cli.mjs', ['tests/campaign.ts', one]) === 'failed');
    const count = Object.keys(CAMPAIGNS).length;
    console.log(`\n${count - short.length} of ${count} campaigns held.${short.length > 0 ? ` Fell short: ${short.join(', ')}.` : ''}`);
  } else if (!wanted) {
    process.stderr.write(`No campaign is called ${name}. There are: ${Object.keys(CAMPAIGNS).join(', ')}.\n`);
    process.exitCode = 1;
  } else {
    const size = Number(values.size ?? wanted.size);
    const start = Date.now();
    const figures = await wanted.run(size);
    console.log(`\n${name}, size ${size}, ${((Date.now() - start) / 1000).toFixed(1)} s`);
    if (figures !== undefined) console.log(figures);
    if (fellShort(name, figures)) process.exitCode = 1;
  }
}

await campaign();
