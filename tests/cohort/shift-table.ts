import type { LimbShape } from './dense-limb';
import { percent, printTable } from './print-table';
import { type ShiftScenario, type ShiftTally, shiftCohort } from './shift-cohort';

/** Runs scenarios, prints one line each, and gives the tallies back by name. */
export function shiftTable(
  title: string,
  scenarios: readonly ShiftScenario[],
  pool: readonly LimbShape[],
  pairs: number,
  seed: number,
): Map<string, ShiftTally> {
  const tallies = new Map(scenarios.map((scenario) => [scenario.name, shiftCohort(scenario, pool, pairs, seed)]));
  const rows = [...tallies].map(([name, { findings, errorMm }]) => [
    name,
    percent(findings.none),
    percent(findings['zero-moved']),
    percent(findings['interval-slipped']),
    percent(findings['cannot-tell']),
    percent(findings['inch-centimetre']),
    errorMm.toFixed(1),
  ]);
  printTable(
    `${title} (${pairs} pairs each, seed ${seed})`,
    ['per cent of pairs', 'none', 'moved', 'slipped', 'cannot tell', 'other unit', 'error mm'],
    rows,
  );
  return tallies;
}

/** Share of pairs whose zero is said to have moved or slipped. */
export function found({ findings }: ShiftTally): number {
  return findings['zero-moved'] + findings['interval-slipped'];
}
