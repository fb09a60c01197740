import { isNoAnswer } from '../outcome';
import type { ChangeBetween } from '../trend/limb-change';
import type { LimbSeries } from '../trend/series-visit';

/** A limb's own unexplained change of girth, as ln per day, shrunk towards zero, with its SD. */
export type OwnTrend = { readonly perDay: number; readonly sdPerDay: number; readonly visits: number };

/** Unexplained girth trends of single people spread by about this much a year around none. Clinic default. */
const SPREAD_PER_DAY = 0.04 / 365.25;
const FEWEST_VISITS = 3;

/**
 * The limb's own trend beyond what body size explains, for looking ahead.
 *
 * Slope of ln(unexplained girth ratio) on days by least squares through the baseline, shrunk by b·T² / (T² + var b), T the spread of such
 * trends. Undefined with fewer than three aligned visits. Shape: a series and the changes between its visits; ln of girth per day.
 * Source: empirical Bayes (normal prior); engine section 8.
 */
export function ownTrend(series: LimbSeries, between: ChangeBetween): OwnTrend | undefined {
  const [baseline, ...later] = series.visits;
  if (!baseline || later.length + 1 < FEWEST_VISITS) return undefined;
  let information = 0;
  let weighted = 0;
  let visits = 1;
  for (const visit of later) {
    const change = between(baseline, visit, series.limb);
    const days = visit.placed.day - baseline.placed.day;
    if (isNoAnswer(change) || change.body.modelSd === undefined || days <= 0) continue;
    const { girth } = change.measured;
    const variance = girth.ownVariance + girth.tensionVariance + change.body.modelSd ** 2;
    information += (days * days) / variance;
    weighted += (days * Math.log(girth.ratio / change.expectedGirthRatio)) / variance;
    visits += 1;
  }
  if (visits < FEWEST_VISITS || information === 0) return undefined;
  const prior = SPREAD_PER_DAY ** 2;
  const trust = prior / (prior + 1 / information);
  return { perDay: (trust * weighted) / information, sdPerDay: Math.sqrt(trust / information), visits };
}
