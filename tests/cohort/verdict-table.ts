import type { LimbShape } from './dense-limb';
import { percent, printTable } from './print-table';
import { type PairScenario, type PairTally, pairCohort } from './verdict-cohort';

/** Runs scenarios, prints one line each, and gives the tallies back by name. */
export function verdictTable(
  title: string,
  scenarios: readonly PairScenario[],
  poolOf: (limb: PairScenario['limb']) => readonly LimbShape[],
  pairs: number,
  seed: number,
): Map<string, PairTally> {
  const tallies = new Map(scenarios.map((scenario) => [scenario.name, pairCohort(scenario, poolOf(scenario.limb), pairs, seed)]));
  const rows = [...tallies].map(([name, tally]) => [
    name,
    percent(tally.verdicts['no-clear-change']),
    percent(tally.verdicts['as-expected']),
    percent(tally.verdicts['more-than-expected']),
    percent(tally.verdicts['less-than-expected']),
    percent(tally.verdicts['cannot-tell']),
    percent(tally.uneven),
    percent(tally.errorSd),
    percent(tally.statedSd),
    tally.zSd.toFixed(2),
    percent(tally.covered),
    percent(tally.volumeCovered),
  ]);
  const head = [
    'per cent of pairs',
    'no change',
    'expected',
    'more',
    'less',
    'cannot tell',
    'one part',
    'error SD',
    'stated SD',
    'z SD',
    '95 % holds',
    'volume 95 %',
  ];
  printTable(`${title} (${pairs} pairs each, seed ${seed})`, head, rows);
  return tallies;
}

/** The mean of a figure over tallies. */
export function meanOf(tallies: ReadonlyMap<string, PairTally>, figure: (tally: PairTally) => number): number {
  const figures = [...tallies.values()].map(figure);
  return figures.reduce((sum, one) => sum + one, 0) / figures.length;
}

/** Share of pairs called more or less than expected, of the whole limb or of one part. */
export function alarms({ alarmed }: PairTally): number {
  return alarmed;
}
