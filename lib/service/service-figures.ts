import { type CareFigures, careFigures } from './care-figures';
import { type DaysSpread, daysSpread, FEWEST_FOR_A_MIDDLE } from './days-spread';
import { proportionRange } from './proportion-range';
import { chartOfDays, chartOfRemakes, type ServiceChart } from './service-charts';
import type { ServiceCounts } from './service-counts';
import { isInPeriod, type ServicePeriod } from './service-period';
import { type RightFigures, rightFigures } from './were-we-right';

/** So many of so many cases, with the 95 % range of the share; or no answer, with its reason. */
export type ShareFigure =
  | { readonly some: number; readonly all: number; readonly share: number; readonly low: number; readonly high: number }
  | NoFigure;

/** Days of cases as they spread; or no answer, with its reason and how many cases there are. */
export type DaysFigure = DaysSpread | (NoFigure & { readonly n: number });

export type NoFigure = { readonly noAnswer: string };

/** Where the days from measuring to the kept fit went, means over the same cases, so that they add up. */
export type DayParts = { readonly n: number; readonly measuring: number; readonly making: number; readonly waiting: number };

/** A figure of one kind of case: a reason, a form of garment (null: none named), a rule. */
export type Of<T> = { readonly of: string | null; readonly figure: T };

/** What was answered to the prompts of one rule. */
export type RuleAnswers = { readonly act: number; readonly putOff: number; readonly declined: number };

/** How good a clinic's service was in a period; charts run over the whole record, so that their limits do not move with the period. */
export type ServiceFigures = {
  readonly period: ServicePeriod;
  readonly firstFits: ShareFigure;
  readonly firstFitsByForm: readonly Of<ShareFigure>[];
  readonly remakes: ShareFigure;
  readonly remakesByReason: readonly Of<ShareFigure>[];
  readonly remakesByForm: readonly Of<ShareFigure>[];
  readonly remakeChart: ServiceChart | NoFigure;
  readonly toFit: DaysFigure;
  readonly toFitAtFirst: DaysFigure;
  readonly toFitAfterGoingBack: DaysFigure;
  readonly parts: DayParts | NoFigure;
  readonly daysChart: ServiceChart | NoFigure;
  readonly making: DaysFigure;
  readonly makingByForm: readonly Of<DaysFigure>[];
  readonly missed: ShareFigure;
  readonly prompts: ShareFigure;
  readonly promptsByRule: readonly Of<RuleAnswers & { readonly acted: ShareFigure }>[];
  readonly right: RightFigures;
  readonly care: CareFigures;
};

/**
 * The figures of a period from what was counted.
 *
 * First fits: pieces kept at their first fitting, of pieces first fitted. Remakes: fittings that ended in a remake, of all fittings.
 * Days: from the day an order was sent to the fit at which its piece was kept, in the month of that fit; `making` to the first delivery.
 * Missed: booked visits that were missed, of those kept or missed. Prompts: acted on, of those acted on, put off or declined, each by its last answer in the period.
 * Shares have Wilson's range, medians that of their order; nothing counted is no answer. Source: definitions of the house (common practice).
 */
export function serviceFigures(counts: ServiceCounts, period: ServicePeriod): ServiceFigures {
  const here = <T extends { readonly month: ServiceCounts['fittings'][number]['month'] }>(rows: readonly T[]) =>
    rows.filter(({ month }) => isInPeriod(month, period));
  const [fittings, kept, delivered] = [here(counts.fittings), here(counts.kept), here(counts.delivered)];
  const firsts = fittings.filter(({ isFirst }) => isFirst);
  const isKept = ({ outcome }: { readonly outcome: string }) => outcome === 'keep';
  const isRemake = ({ outcome }: { readonly outcome: string }) => outcome === 'remake';
  const remakes = fittings.filter(isRemake);
  const rules = grouped(counts.answers, ({ rule }) => rule);
  return {
    period,
    firstFits: shareOf(firsts, isKept, 'No piece was fitted for the first time in this period.'),
    firstFitsByForm: grouped(firsts, ({ form }) => form).map(([of, rows]) => ({ of, figure: shareOf(rows, isKept, '') })),
    remakes: shareOf(fittings, isRemake, 'No piece was fitted in this period.'),
    remakesByReason: grouped(remakes, ({ reason }) => reason).map(([of]) => ({
      of,
      figure: shareOf(fittings, (row) => isRemake(row) && row.reason === of, ''),
    })),
    remakesByForm: grouped(fittings, ({ form }) => form).map(([of, rows]) => ({ of, figure: shareOf(rows, isRemake, '') })),
    remakeChart: chartOfRemakes(counts) ?? {
      noAnswer:
        counts.fittings.length === 0
          ? 'No piece was ever fitted: there is nothing to chart.'
          : 'Too few remakes for a chart: it begins with the second remake.',
    },
    toFit: daysOfCases(kept),
    toFitAtFirst: daysOfCases(kept.filter(({ wentBack }) => !wentBack)),
    toFitAfterGoingBack: daysOfCases(kept.filter(({ wentBack }) => wentBack)),
    parts: partsOf(kept.filter(({ wentBack }) => !wentBack)),
    daysChart: chartOfDays(counts) ?? { noAnswer: 'A chart needs two months in which ordered pieces were fitted and kept.' },
    making: daysOfCases(delivered),
    makingByForm: grouped(delivered, ({ form }) => form).map(([of, rows]) => ({ of, figure: daysOfCases(rows) })),
    missed: shareOf(here(counts.booked), ({ standing }) => standing === 'missed', 'No booked visit of this period was kept or missed.'),
    prompts: shareOf(counts.answers, ({ answer }) => answer === 'act', 'No prompt was answered in this period.'),
    promptsByRule: rules.map(([of, rows]) => ({
      of,
      figure: {
        act: total(rows.filter(({ answer }) => answer === 'act')),
        putOff: total(rows.filter(({ answer }) => answer === 'not-now')),
        declined: total(rows.filter(({ answer }) => answer === 'not-for-this-patient')),
        acted: shareOf(rows, ({ answer }) => answer === 'act', ''),
      },
    })),
    right: rightFigures(counts.right),
    care: careFigures(counts.care),
  };
}

type Counted = { readonly n: number };

function shareOf<T extends Counted>(rows: readonly T[], counts: (row: T) => boolean, noAnswer: string): ShareFigure {
  const [some, all] = [total(rows.filter(counts)), total(rows)];
  const range = proportionRange(some, all);
  return range ? { some, all, ...range } : { noAnswer };
}

/** Days of cases as they spread, or why no middle is said of them. */
export function daysOfCases(rows: readonly (Counted & { readonly days: number })[]): DaysFigure {
  const n = total(rows);
  const few =
    n === 0 ? 'No case in this period.' : `Only ${n} ${n === 1 ? 'case' : 'cases'}; a median is said from ${FEWEST_FOR_A_MIDDLE}.`;
  return daysSpread(rows) ?? { noAnswer: few, n };
}

function partsOf(rows: ServiceCounts['kept']): ServiceFigures['parts'] {
  const n = rows.reduce((sum, { parted }) => sum + parted, 0);
  if (n === 0) return { noAnswer: 'No piece kept at its first fitting in this period has every day noted.' };
  const mean = (part: 'measuring' | 'making' | 'waiting') => rows.reduce((sum, row) => sum + row[part], 0) / n;
  return { n, measuring: mean('measuring'), making: mean('making'), waiting: mean('waiting') };
}

/** Rows by what they are of, the most cases first, then by name. */
function grouped<T extends Counted>(rows: readonly T[], by: (row: T) => string | null): readonly [string | null, readonly T[]][] {
  const groups = new Map<string | null, T[]>();
  for (const row of rows) groups.get(by(row))?.push(row) ?? groups.set(by(row), [row]);
  return [...groups].sort(([one, a], [other, b]) => total(b) - total(a) || ((one ?? '') < (other ?? '') ? -1 : 1));
}

function total(rows: readonly Counted[]): number {
  return rows.reduce((sum, { n }) => sum + n, 0);
}
