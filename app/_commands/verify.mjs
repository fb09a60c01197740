import fs from 'node:fs';
import path from 'node:path';
import { countPlaywright, countVitest, withExitCode } from './count-tests.mjs';
import { namesGiven } from './no-arguments.mjs';
import { install, ROOT, run, runBeside, runNext } from './prepare.mjs';

const RESULTS = path.join(ROOT, 'test-results');
const failures = [];
let passed = 0;
let failed = 0;

/** Installs, then lint, types, unit and database tests, build and browser tests; ends with `N passed, N failed`. */
async function verify() {
  if (!install()) return note('install', { passed: 0, failed: 1 });
  fs.rmSync(RESULTS, { recursive: true, force: true });
  fs.mkdirSync(RESULTS, { recursive: true });
  step('lint', () => tool('@biomejs/biome/bin/biome', ['check', '.']));
  step('types of lib', () => tool('typescript/bin/tsc', ['--noEmit', '-p', 'lib']));
  step('types', () => runNext(['typegen']) || tool('typescript/bin/tsc', ['--noEmit']));
  vitest();
  if (step('build', () => runNext(['build']))) await browser();
}

function vitest() {
  say('unit and database tests');
  const report = path.join(RESULTS, 'vitest.json');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const code = tool('vitest/vitest.mjs', ['run', '--config', 'tests/vitest.config.ts', ...reporters]);
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
      note('browser tests', withExitCode(countPlaywright(report), code));
    }),
  );
}

/** A step without tests of its own: a failure counts as one failed, success as nothing. */
function step(name, work) {
  say(name);
  const good = work() === 0;
  note(name, { passed: 0, failed: good ? 0 : 1 });
  return good;
}

function tool(file, given, env = {}) {
  return run(process.execPath, [path.join(ROOT, 'node_modules', file), ...given], env);
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
if (failures.length > 0) console.log(`\nFailed: ${failures.join(', ')}`);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
