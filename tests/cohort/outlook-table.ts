import type { LimbKind } from '@/lib/ladder/limb';
import type { LimbShape } from './dense-limb';
import { type OutlookScenario, type OutlookTally, outlookCohort } from './outlook-cohort';
import { percent, printTable } from './print-table';

const PLANS = [
  ['cut today', [0], 0],
  ['cut 90 days ago', [0, 90], 0],
  ['fourth visit, cut 90 days ago', [0, 90, 180, 270], 2],
] as const;

const REDUCTIONS_PCT = [10, 15, 20] as const;

/** Whether the tally at this place of a table is of a piece cut on the day of the newest ladder. */
export function isCutToday(index: number): boolean {
  return Math.floor(index / REDUCTIONS_PCT.length) % PLANS.length === 0;
}

/** Runs every plan of visits, limb and reduction, prints one line each, and gives the tallies. */
export function outlookTable(
  which: string,
  poolOf: (limb: LimbKind) => readonly LimbShape[],
  children: number,
  seed: number,
): OutlookTally[] {
  const scenarios = (['leg', 'arm'] as const).flatMap((limb) =>
    PLANS.flatMap(([plan, visitDays, cutAt]) =>
      REDUCTIONS_PCT.map(
        (reductionPct): OutlookScenario => ({
          name: `${limb}, r ${reductionPct} %, ${plan}`,
          limb,
          reductionPct,
          visitDays,
          cutAt,
          landmarks: 'all',
        }),
      ),
    ),
  );
  const tallies = scenarios.map((scenario) => outlookCohort(scenario, poolOf(scenario.limb), children, seed));
  const rows = tallies.map((tally, index) => [
    scenarios[index]?.name ?? '',
    percent(tally.alreadyEarly),
    percent(tally.earlyKept),
    percent(tally.outgrownByMiddle),
    tally.earlyDays.toFixed(0),
    tally.trueDays.toFixed(0),
    percent(tally.highEnough),
    percent(tally.middleEnough),
  ]);
  const head = [
    'children',
    'early is today',
    'early kept',
    'out by middle',
    'days to early',
    'days to true',
    '90 % room enough',
    'middle room enough',
  ];
  printTable(`Outgrow day and room to grow, ${which} (${children} children each, seed ${seed})`, head, rows);
  return tallies;
}
