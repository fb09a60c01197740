import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';

/** The project's folder, whatever folder a command was started in. */
export const ROOT = path.resolve(import.meta.dirname ?? path.dirname(new URL(import.meta.url).pathname), '../../..');

const NEXT = path.join(ROOT, 'node_modules/next/dist/bin/next');

/** Runs a program to its end, showing what it says; its exit code. */
export function run(program, given, env = {}) {
  const shell = process.platform === 'win32' && program === 'npm';
  const ended = spawnSync(program, given, { cwd: ROOT, stdio: 'inherit', shell, env: { ...process.env, ...env } });
  return ended.status ?? 1;
}

/** The same beside other work. */
export function runBeside(program, given, env = {}) {
  const started = spawn(program, given, { cwd: ROOT, stdio: 'inherit', env: { ...process.env, ...env } });
  return new Promise((resolve) => started.once('exit', (code) => resolve(code ?? 1)));
}

/** Runs one of our own TypeScript commands. */
export function runTypeScript(file, env = {}) {
  return run(process.execPath, ['--import', 'tsx', file], env);
}

/** Runs `next build`, `next typegen` and the like. */
function runNext(given) {
  return run(process.execPath, [NEXT, ...given], { NEXT_TELEMETRY_DISABLED: '1' });
}

/** The same beside other work. */
export function runNextBeside(given) {
  return runBeside(process.execPath, [NEXT, ...given], { NEXT_TELEMETRY_DISABLED: '1' });
}

/** Installs the pinned packages when they are missing or older than the lock file; false when that fails. */
export function install() {
  const stamp = path.join(ROOT, 'node_modules/.package-lock.json');
  if (modified(stamp) >= modified(path.join(ROOT, 'package-lock.json'))) return true;
  console.log('Installing packages. The first time takes a minute or two.');
  return run('npm', ['ci', '--no-audit', '--no-fund', '--include=dev']) === 0;
}

/** Builds the program when there is no build or a source is newer than it; false when that fails. */
export function build() {
  const built = modified(path.join(ROOT, '.next/BUILD_ID'));
  const sources = ['app', 'lib', 'db', 'public', 'next.config.js', 'package-lock.json', 'tsconfig.json'];
  if (built > Math.max(...sources.map((source) => newest(path.join(ROOT, source))))) return true;
  console.log('Building the program.');
  return runNext(['build']) === 0;
}

function modified(file) {
  return fs.statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

function newest(place) {
  const own = modified(place);
  if (!fs.statSync(place, { throwIfNoEntry: false })?.isDirectory()) return own;
  return Math.max(own, ...fs.readdirSync(place).map((name) => newest(path.join(place, name))));
}
