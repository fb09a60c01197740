import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { readArguments } from '@/app/_commands/read-arguments';
import { seeded } from '../cohort/random';
import { type Mutants, scoreByRoom } from './score-by-room';

const ROOT = path.resolve(import.meta.dirname, '../..');
const REPORT = path.join(ROOT, 'test-results/mutants/mutants.json');

/** Rooms of `lib` that compute. Their tables of numbers are checked cell by cell elsewhere. */
const ROOMS = [
  ...['units', 'statistics', 'ladder', 'alignment', 'volume', 'course-model', 'growth', 'trend'],
  ...['garments', 'prompts', 'schedule', 'orders'],
];

const USAGE = `npm run mutants -- [room …] [--one-line-in N] [--seed S]
  Makes single changes to the rooms of lib (all that compute, when none is named), each alone, and runs the tests that reach it.
  Prints how many were noticed, by room, and each that was not. --one-line-in 10 looks at a tenth of the lines, drawn by the seed.`;

const { values, positionals } = readArguments(
  USAGE,
  { 'one-line-in': { type: 'string', default: '1' }, seed: { type: 'string', default: '1' } },
  { names: ROOMS.length },
);
const rooms = positionals.length > 0 ? positionals : ROOMS;
const oneIn = Number(values['one-line-in']);
const random = seeded(Number(values.seed));

/** The places that are changed: whole files, or some lines of them as `file:line-line`. */
const places = rooms.flatMap((room) => filesOf(room).flatMap((file) => (oneIn > 1 ? someLines(file) : [file])));

if (places.length === 0) {
  process.stderr.write(`No such room of lib: ${rooms.join(', ')}\n${USAGE}\n`);
  process.exit(1);
}
rmSync(REPORT, { force: true });
const stryker = [
  'node_modules/@stryker-mutator/core/bin/stryker.js',
  'run',
  'tests/mutation/stryker.config.mjs',
  '--mutate',
  places.join(','),
];
spawnSync(process.execPath, stryker, { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit'] });
if (!existsSync(REPORT)) {
  process.stderr.write('No mutant was run: see above.\n');
  process.exit(1);
}
const { table, survivors } = scoreByRoom(JSON.parse(readFileSync(REPORT, 'utf8')) as Mutants);
console.log([...survivors, '', ...table].join('\n'));

function filesOf(room: string): string[] {
  const folder = path.join(ROOT, 'lib', room);
  if (!existsSync(folder)) return [];
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  return files
    .filter((file) => file.endsWith('.ts') && !file.startsWith('tables/'))
    .sort()
    .map((file) => `lib/${room}/${file}`);
}

function someLines(file: string): string[] {
  const lines = readFileSync(path.join(ROOT, file), 'utf8').split('\n');
  return lines.flatMap((line, index) => {
    const isCode = !/^\s*(\*|\/|import|export type|$)/.test(line);
    return isCode && random.uniform() < 1 / oneIn ? [`${file}:${index + 1}-${index + 1}`] : [];
  });
}
