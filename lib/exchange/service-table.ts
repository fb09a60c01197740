import type { CareFigures } from '../service/care-figures';
import type { ServiceChart } from '../service/service-charts';
import { type DaysFigure, daysOfCases, type Of, type ServiceFigures, type ShareFigure } from '../service/service-figures';
import type { RightFigures } from '../service/were-we-right';
import { csvText } from './csv-text';
import { defused, isWords } from './set/defused';
import type { CellKind } from './set/set-table';

type ServiceColumn = { readonly name: string; readonly kind: CellKind; readonly says: string };

/** The columns of the table of service figures, a figure a row. */
const COLUMNS = [
  { name: 'figure', kind: 'word', says: 'Which figure; each is told in this dictionary.' },
  {
    name: 'by',
    kind: 'word',
    says: 'By what it is split: reason, form, rule, month, stretch, against, verdict, tenth, came or phase; empty for the whole.',
  },
  { name: 'of', kind: 'word', says: 'Of which of those; empty where none is named.' },
  { name: 'from_month', kind: 'word', says: 'First month counted; empty where the record itself begins it.' },
  { name: 'to_month', kind: 'word', says: 'Last month counted.' },
  { name: 'n', kind: 'whole', says: 'Cases the figure is of.' },
  { name: 'some', kind: 'whole', says: 'Of those, how many were so; empty for days.' },
  { name: 'unit', kind: 'word', says: 'Unit of the value and its ends: 1 (a share), d (days), pct_points_tenths or fittings.' },
  { name: 'value', kind: 'decimal', says: 'The share, the median, or the value of the chart.' },
  { name: 'low', kind: 'decimal', says: 'Lower end of the 95 % range; in a chart the lower limit.' },
  { name: 'high', kind: 'decimal', says: 'Upper end of the 95 % range; in a chart the upper limit.' },
  { name: 'nine_in_ten', kind: 'decimal', says: 'Days by which nine in ten were done.' },
  { name: 'signal', kind: 'word', says: 'In a chart: outside, where the value stands outside its limits.' },
  { name: 'no_answer', kind: 'free-text', says: 'Why there is no value.' },
] as const satisfies readonly ServiceColumn[];

type Name = (typeof COLUMNS)[number]['name'];
type Cells = Partial<Record<Name, string>>;

/** What each figure is. */
const FIGURES = {
  first_fits: 'Pieces kept at their first fitting without alteration, of pieces fitted for the first time.',
  remakes: 'Fittings that ended in a remake, of all fittings; by reason, of all fittings too.',
  days_to_fit: 'Days from the day an order was sent to the fit at which its piece was kept.',
  days_to_fit_at_first: 'The same, of pieces kept at their first fitting.',
  days_to_fit_after_going_back: 'The same, of pieces that were altered or made again before.',
  mean_days_measured_to_sent:
    'Mean days of pieces kept at their first fitting, from the measuring they were made to until their order was sent.',
  mean_days_sent_to_delivered: 'Of the same pieces, from the order sent to the delivery.',
  mean_days_delivered_to_fitted: 'Of the same pieces, from the delivery to the fit.',
  days_to_delivery: 'Days from the day an order was sent to the first delivery of its piece.',
  visits_missed: 'Booked visits that were missed, of those kept or missed; kept is where something was measured on the day.',
  prompts_acted_on: 'Prompts acted on, of those acted on, put off or declined, each by its last answer.',
  prompts_put_off: 'Prompts put off, of the same.',
  prompts_declined: 'Prompts declined, of the same.',
  days_without:
    'Days a year, a limb in care with garments, on which no piece worked: none worn, within its expected life and not sent back; n counts patients. Months that have ended.',
  patients_with_days_without: 'Patients with any such day, of those with a limb in care with garments.',
  excess_lost:
    'Excess over the other limb that went from the first to the last visit of a phase, tenths of a percentage point; below 0 where it grew.',
  excess_kept:
    'Limbs whose last excess of a phase is not above that of the phase before beyond the error of both, of those with one before.',
  ranges_held:
    'Of changes measured at the next visit with nothing noted in between, those within the 95 % range given at the visit before; by what the change was against.',
  scale_learnt: 'Where those ranges are off: the factor on the variance of error with which 95 in 100 would have held.',
  verdicts_confirmed:
    'Verdicts of which all later visits say the same, of those confirmed or contradicted: the later view of the engine itself.',
  verdicts_contradicted: 'Verdicts of which all later visits say another, of the same.',
  verdicts_open: 'Verdicts of visits with no later one, or of which the later ones say nothing; n is all of the verdict.',
  chance_came: 'Changes that came by the later view, of answers whose stated probability lies in that tenth.',
  chance_stated: 'Mean probability that was stated in that tenth.',
  brier_score: 'Mean square of the stated probability less what came (1 or 0): 0 is best.',
  brier_of_base_rate: 'The same, had the share of changes that came been said of everybody.',
  early_days_kept: 'Pieces that fitted up to the early day given of them, of those of which that can be told; nine in ten are meant to.',
  outgrow_came: 'When the fit ended: before the early day, between the two days, on the outgrow day or after, or not yet.',
  outgrow_days_off: 'Days from the outgrow day to the day on which the fit was found to have ended; below 0 when earlier.',
  chart_of_remakes:
    'Process chart of the whole record: share of the fittings of a month that ended in a remake, or fittings between two remakes.',
  chart_of_days: 'Process chart of the whole record: mean days from the order sent to the fit that was kept, of a month.',
} as const;

type Figure = keyof typeof FIGURES;

/**
 * The figures of a clinic's service as CSV, a figure a row, words defused as in the other tables.
 *
 * No value is an empty cell with its reason beside it, never 0. Columns and figures are told by `serviceDictionary`.
 */
export function serviceTable(figures: ServiceFigures): string {
  const months = { from_month: figures.period.from ?? '', to_month: figures.period.to };
  const { parts } = figures;
  const partRow = (figure: Figure, part: 'measuring' | 'making' | 'waiting'): Cells =>
    'noAnswer' in parts
      ? { figure, unit: 'd', no_answer: parts.noAnswer }
      : { figure, unit: 'd', n: String(parts.n), value: String(parts[part]) };
  const rows: readonly Cells[] = [
    shareRow('first_fits', figures.firstFits),
    ...by('form', figures.firstFitsByForm, (figure) => shareRow('first_fits', figure)),
    shareRow('remakes', figures.remakes),
    ...by('reason', figures.remakesByReason, (figure) => shareRow('remakes', figure)),
    ...by('form', figures.remakesByForm, (figure) => shareRow('remakes', figure)),
    daysRow('days_to_fit', figures.toFit),
    daysRow('days_to_fit_at_first', figures.toFitAtFirst),
    daysRow('days_to_fit_after_going_back', figures.toFitAfterGoingBack),
    partRow('mean_days_measured_to_sent', 'measuring'),
    partRow('mean_days_sent_to_delivered', 'making'),
    partRow('mean_days_delivered_to_fitted', 'waiting'),
    daysRow('days_to_delivery', figures.making),
    ...by('form', figures.makingByForm, (figure) => daysRow('days_to_delivery', figure)),
    shareRow('visits_missed', figures.missed),
    shareRow('prompts_acted_on', figures.prompts),
    ...figures.promptsByRule.flatMap(({ of, figure: { act, putOff, declined, acted } }) => {
      const n = String(act + putOff + declined);
      const counted = (figure: Figure, some: number): Cells => ({ figure, n, some: String(some), unit: '1' });
      const rule = [shareRow('prompts_acted_on', acted), counted('prompts_put_off', putOff), counted('prompts_declined', declined)];
      return rule.map((row) => ({ ...row, by: 'rule', of: of ?? '' }));
    }),
  ];
  const given = [...rightRows(figures.right), ...careRows(figures.care)].map((row) => ({ ...months, ...row }));
  const charts = [...chartRows('chart_of_remakes', figures.remakeChart), ...chartRows('chart_of_days', figures.daysChart)];
  return csvText([COLUMNS.map(({ name }) => name), ...[...rows.map((row) => ({ ...months, ...row })), ...given, ...charts].map(written)]);
}

/** The dictionary of that table as CSV: every column with its datatype, then every figure. */
export function serviceDictionary(): string {
  const datatype = ({ kind }: ServiceColumn) => (kind === 'whole' ? 'integer' : kind === 'decimal' ? 'decimal' : 'string');
  return csvText([
    ['what', 'name', 'datatype', 'says'],
    ...COLUMNS.map((column) => ['column', column.name, datatype(column), column.says]),
    ...Object.entries(FIGURES).map(([name, says]) => ['figure', name, '', says]),
  ]);
}

function written(cells: Cells): readonly string[] {
  return COLUMNS.map(({ name, kind }) => (isWords(kind) ? defused(cells[name] ?? '') : (cells[name] ?? '')));
}

function shareRow(figure: Figure, of: ShareFigure): Cells {
  if ('noAnswer' in of) return { figure, unit: '1', no_answer: of.noAnswer };
  const { some, all, share, low, high } = of;
  return { figure, unit: '1', n: String(all), some: String(some), value: String(share), low: String(low), high: String(high) };
}

/** What came of given answers; a rule without a case says so. */
function rightRows({ ranges, verdicts, tenths, brier, outlooks, earlyKept, daysOff }: RightFigures): readonly Cells[] {
  const none = { noAnswer: 'Nothing that was given in this period can be judged yet.' };
  const counted = (figure: Figure, some: number, n: number): Cells => ({ figure, unit: '1', some: String(some), n: String(n) });
  const all = Object.values(outlooks).reduce((sum, n) => sum + n, 0);
  return [
    ...(ranges.length === 0 ? [shareRow('ranges_held', none)] : []),
    ...ranges.flatMap((one) => {
      const learnt: Cells = { figure: 'scale_learnt', unit: '1', n: String(one.all) };
      const scale = one.scale === null ? { no_answer: 'Not off as far as these cases can show.' } : { value: String(one.scale) };
      return [shareRow('ranges_held', one), { ...learnt, ...scale }].map((row) => ({ ...row, by: 'against', of: one.of }));
    }),
    ...(verdicts.length === 0 ? [shareRow('verdicts_confirmed', none)] : []),
    ...verdicts.flatMap(({ against, word, confirmed, contradicted, open, range }) => {
      const decided = confirmed + contradicted;
      const rows = [
        shareRow('verdicts_confirmed', range ? { some: confirmed, all: decided, ...range } : none),
        counted('verdicts_contradicted', contradicted, decided),
        counted('verdicts_open', open, decided + open),
      ];
      return rows.map((row) => ({ ...row, by: 'verdict', of: `${against} ${word}` }));
    }),
    ...tenths.flatMap((one) => {
      const stated: Cells = { figure: 'chance_stated', unit: '1', n: String(one.all), value: String(one.stated) };
      return [shareRow('chance_came', one), stated].map((row) => ({ ...row, by: 'tenth', of: String(one.tenth) }));
    }),
    ...(['score', 'ofBaseRate'] as const).map((which): Cells => {
      const figure = which === 'score' ? 'brier_score' : 'brier_of_base_rate';
      return brier
        ? { figure, unit: '1', n: String(brier.n), value: String(brier[which]) }
        : { figure, unit: '1', no_answer: none.noAnswer };
    }),
    shareRow('early_days_kept', earlyKept ?? none),
    ...(all === 0 ? [shareRow('outgrow_came', none)] : []),
    ...(all === 0 ? [] : Object.entries(outlooks)).map(([came, n]) => ({ ...counted('outgrow_came', n, all), by: 'came', of: came })),
    daysRow('outgrow_days_off', daysOfCases(daysOff)),
  ];
}

/** Days without a working piece, and excess by phase. */
function careRows({ without, withAny, phases }: CareFigures): readonly Cells[] {
  const none = { noAnswer: 'No limb was in care with garments in a month of this period that has ended.' };
  const few = { noAnswer: 'No phase of this period has two visits with an excess.' };
  const ends = without && without.low !== null && without.high !== null ? { low: String(without.low), high: String(without.high) } : {};
  return [
    without
      ? { figure: 'days_without', unit: 'd', n: String(without.n), value: String(without.days), ...ends }
      : { figure: 'days_without', unit: 'd', no_answer: none.noAnswer },
    shareRow('patients_with_days_without', withAny ?? none),
    ...(phases.length === 0 ? [shareRow('excess_lost', few)] : []),
    ...phases.flatMap(({ phase, lost, kept }) =>
      [
        { ...daysRow('excess_lost', daysOfCases(lost)), unit: 'pct_points_tenths' },
        shareRow('excess_kept', kept ?? { noAnswer: 'No phase before it has an excess.' }),
      ].map((row) => ({ ...row, by: 'phase', of: phase })),
    ),
  ];
}

function daysRow(figure: Figure, of: DaysFigure): Cells {
  if ('noAnswer' in of) return { figure, unit: 'd', n: String(of.n), no_answer: of.noAnswer };
  const ends = of.low === null || of.high === null ? {} : { low: String(of.low), high: String(of.high) };
  return { figure, unit: 'd', n: String(of.n), value: String(of.median), ...ends, nine_in_ten: String(of.nineInTen) };
}

function by<T>(kind: string, rows: readonly Of<T>[], row: (figure: T) => Cells): readonly Cells[] {
  return rows.map(({ of, figure }) => ({ ...row(figure), by: kind, of: of ?? '' }));
}

function chartRows(figure: Figure, of: ServiceChart | { readonly noAnswer: string }): readonly Cells[] {
  if ('noAnswer' in of) return [{ figure, no_answer: of.noAnswer }];
  const unit = { shares: '1', days: 'd', between: 'fittings' }[of.kind];
  return of.points.map(({ label, value, n, isOutside }, index) => ({
    figure,
    by: of.kind === 'between' ? 'stretch' : 'month',
    of: label,
    n: String(n),
    unit,
    value: String(value),
    low: String(of.chart.limits[index]?.low ?? ''),
    high: String(of.chart.limits[index]?.high ?? ''),
    signal: isOutside ? 'outside' : '',
  }));
}
