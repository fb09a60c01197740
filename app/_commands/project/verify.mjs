import fs from 'node:fs';
import path from 'node:path';
import { namesGiven } from '../no-arguments.mjs';
import { install, ROOT, run, runBeside, runNextBeside } from '../start/prepare.mjs';
import { countPlaywright, countVitest, withExitCode } from './count-tests.mjs';

const RESULTS = path.join(ROOT, 'test-results');
const failures = [];
const unsteady = [];
let passed = 0;
let failed = 0;

/** Installs, then lint, types and build beside the unit and database tests, then the browser tests; ends with `N passed, N failed`. */
async function verify() {
  if (!install()) return note('install', { passed: 0, failed: 1 });
  fs.rmSync(RESULTS, { recursive: true, force: true });
  fs.mkdirSync(RESULTS, { recursive: true });
  const [isBuilt] = await Promise.all([checks(), vitest()]);
  if (isBuilt) await browser();
  if (process.argv.includes('--fresh')) freshness();
}

/** Asked for by `--fresh`: what the registry has that is newer than the pinned versions, to be looked at by a person; it fails nothing. */
function freshness() {
  say('newer versions in the registry (to be looked at; Node 20 holds some back)');
  run('npm', ['outdated']);
  say('known weaknesses of what the program runs with');
  run('npm', ['audit', '--omit=dev']);
}

/** What runs nothing of the program, beside the tests that wait much: lint, types, and the build, whose success comes back. */
async function checks() {
  await step('lint', () => tool('@biomejs/biome/bin/biome', ['check', '.']));
  await step('types of lib', () => tool('typescript/bin/tsc', ['--noEmit', '-p', 'lib']));
  await step('types', async () => (await runNextBeside(['typegen'])) || tool('typescript/bin/tsc', ['--noEmit']));
  return step('build', () => runNextBeside(['build']));
}

async function vitest() {
  say('unit and database tests');
  const report = path.join(RESULTS, 'vitest.json');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const code = await tool('vitest/vitest.mjs', ['run', '--config', 'tests/vitest.config.ts', ...reporters]);
  note('unit and database tests', withExitCode(countVitest(report), code));
}

/** In two halves side by side, each with a server and a database of its own: a machine of two cores is used whole. */
async function browser() {
  say('browser tests');
  await Promise.all(
    [1, 2].map(async (half) => {
      const report = path.join(RESULTS, `playwright-${half}.json`);
      const given = ['test', '--config', 'tests/playwright.config.ts', '--reporter=list,json', `--shard=${half}/2`];
      const env = { PLAYWRIGHT_JSON_OUTPUT_FILE: report, E2E_FOLDER: `test-results/browser-${half}` };
      const code = await runBeside(process.execPath, [path.join(ROOT, 'node_modules/@playwright/test/cli.js'), ...given], env);
      const counts = countPlaywright(report);
      unsteady.push(...counts.unsteady);
      note('browser tests', withExitCode(counts, code));
    }),
  );
}

/** A step without tests of its own: a failure counts as one failed, success as nothing. */
async function step(name, work) {
  say(name);
  const good = (await work()) === 0;
  note(name, { passed: 0, failed: good ? 0 : 1 });
  return good;
}

function tool(file, given) {
  return runBeside(process.execPath, [path.join(ROOT, 'node_modules', file), ...given]);
}

function note(name, counts) {
  passed += counts.passed;
  failed += counts.failed;
  if (counts.failed > 0) failures.push(name);
}

function say(name) {
  console.log(`\n== ${name}`);
}

namesGiven('npm run verify\n  Lint, types, tests, build and browser tests; ends with 0 when all passed, else with 1.');
await verify();
if (unsteady.length > 0)
  console.log(`\nPassed only when tried again, and wants looking into:\n${unsteady.map((title) => `  ${title}`).join('\n')}`);
if (failures.length > 0) console.log(`\nFailed: ${failures.join(', ')}`);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
