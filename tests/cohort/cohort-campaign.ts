import { heldOutLimbs, tunedLimbs } from './limb-shape';
import { outlookTable } from './outlook-table';
import { percent } from './print-table';
import { halfScenarios, hardScenarios, healthyScenarios, swollenScenarios } from './verdict-scenarios';
import { alarms, meanOf, verdictTable } from './verdict-table';

const LIMBS = ['leg', 'arm'] as const;

/** The cohort at length, on seeds of its own. Prints the tables; nothing here passes or fails. */
export function cohortCampaign(pairs: number): void {
  for (const [which, poolOf, seed] of [
    ['limbs the defaults were looked at with', tunedLimbs, 9001],
    ['limbs that were never tuned on', heldOutLimbs, 9002],
  ] as const) {
    const healthy = verdictTable(`Healthy, ${which}`, LIMBS.flatMap(healthyScenarios), poolOf, pairs, seed);
    process.stdout.write(
      `False alarms ${percent(meanOf(healthy, alarms))} %, 95 % intervals hold ${percent(meanOf(healthy, (tally) => tally.covered))} %\n`,
    );
    for (const swelling of [0.02, 0.03, 0.05, 0.08]) {
      const swollen = verdictTable(
        `Swollen, ${which}`,
        LIMBS.flatMap((limb) => swollenScenarios(limb, swelling)),
        poolOf,
        pairs,
        seed + 1,
      );
      process.stdout.write(`Found ${percent(meanOf(swollen, (tally) => tally.verdicts['more-than-expected']))} %\n`);
    }
    for (const swelling of [0, 0.05, 0.08])
      verdictTable(
        `Harder, ${which}`,
        LIMBS.flatMap((limb) => hardScenarios(limb, swelling)),
        poolOf,
        pairs,
        seed + 2,
      );
    for (const swelling of [0.03, 0.05, 0.08])
      verdictTable(
        `Half of the limb, ${which}`,
        LIMBS.flatMap((limb) => halfScenarios(limb, swelling)),
        poolOf,
        pairs,
        seed + 4,
      );
    outlookTable(which, poolOf, pairs / 2, seed + 3);
  }
}
