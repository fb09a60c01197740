import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '../..');

/** Single changes that tests once let pass: the file of `lib`, what stands there, what it becomes, and the test that must notice. */
const CHANGES = [
  ['alignment/level-fit.ts', '1 / prior ** 2', '1 * prior ** 2', 'alignment/level-fit'],
  ['growth/expected-ladder.ts', 'return girth + ((girth - nextGirth)', 'return girth - ((girth - nextGirth)', 'growth/expected-ladder'],
  ['doubts/sides-changed.ts', 'first && second && doubtOfSides', '(first || second) && doubtOfSides', 'growth/expected-ladder'],
  ['growth/projection-error.ts', '[156, 0.235]', '[156, 0.27]', 'growth/project-measure'],
  ['statistics/akaike-penalty.ts', 'spare > 0', 'spare >= 0', 'statistics/akaike-penalty'],
  ['schedule/how-it-ended.ts', 'one.limb === piece.limb', 'one.limb !== piece.limb', 'schedule/how-it-ended'],
  ['schedule/how-it-ended.ts', 'one.side === piece.side', 'one.side !== piece.side', 'schedule/how-it-ended'],
  ['course-model/read-change.ts', 'visit <= toVisit', 'visit < toVisit', 'course-model/reference-cases'],
] as const;

/** A fixed sample, small enough for every run; `npm run mutants` makes all changes. */
describe('tests that bite', () => {
  it.each(CHANGES)('%s: %s → %s is noticed', (file, from, to, test) => {
    const source = readFileSync(path.join(ROOT, 'lib', file), 'utf8');
    expect(source.split(from)).toHaveLength(2);
    const vitest = path.join(ROOT, 'node_modules/vitest/vitest.mjs');
    const given = [vitest, 'run', '--config', 'tests/mutation/changed.config.ts', `tests/lib/${test}.test.ts`];
    const run = spawnSync(process.execPath, given, {
      cwd: ROOT,
      encoding: 'utf8',
      env: { ...process.env, CHANGED: JSON.stringify({ file: path.join(ROOT, 'lib', file), from, to }) },
    });
    expect(run.status, run.stdout).toBe(1);
    expect(run.stdout).toMatch(/Tests .*\d+ failed/);
  });
});
