import { areRemakesRare } from './service-charts';
import type { Month, ServiceCounts } from './service-counts';
import { isInPeriod, type ServicePeriod } from './service-period';
import type { GivenAgainst, OutlookCame, VerdictCame } from './what-came';

/** Figures that are kept as sums; what `at` and `of` name, and which sums there are beside the number, stands in `partsOfPatient`. */
export const PART_FIGURES = [
  ...(['fitting', 'day', 'kept', 'delivered', 'booked', 'answer'] as const),
  ...(['verdict', 'miss', 'outlook', 'without', 'excess'] as const),
];
export type PartFigure = (typeof PART_FIGURES)[number];

/** What a patient, or a clinic, adds to one figure in one month (of `day`: on one day): whole numbers that may be added up; of `of` a JSON list. */
export type ServicePart = { readonly figure: PartFigure; readonly at: string; readonly of: string; readonly sums: readonly number[] };

/** The most sums of a part. */
export const MOST_SUMS = 7;

/** Probabilities are summed in thousand-millionths, so that what was added can be taken off again to the last digit. */
const BILLION = 1e9;

/** The cases of one patient, as the record has them. */
export type PatientCases = {
  readonly fittings: readonly {
    readonly day: string;
    readonly form: string | null;
    readonly outcome: string;
    readonly reason: string | null;
    readonly isFirst: boolean;
  }[];
  readonly kept: readonly {
    readonly month: string;
    readonly wentBack: boolean;
    readonly days: number;
    readonly measuring: number | null;
    readonly making: number | null;
    readonly waiting: number | null;
  }[];
  readonly delivered: readonly { readonly month: string; readonly form: string | null; readonly days: number }[];
  readonly booked: readonly { readonly month: string; readonly standing: string }[];
  /** Prompts by the last answer to each. */
  readonly answers: readonly { readonly month: string; readonly rule: string; readonly answer: string }[];
  readonly outcomes: readonly {
    readonly kind: 'verdict' | 'outlook';
    readonly day: string;
    readonly against: string | null;
    readonly word: string | null;
    readonly came: string;
    readonly tenth: number | null;
    readonly changed: boolean | null;
    readonly probability: number | null;
    readonly miss: number | null;
    readonly earlyKept: boolean | null;
    readonly daysOff: number | null;
  }[];
  readonly care: readonly {
    readonly kind: 'without' | 'excess';
    readonly day: string;
    readonly whole: number | null;
    readonly some: number | null;
    readonly phase: string | null;
    readonly lost: number | null;
    readonly kept: boolean | null;
  }[];
};

/** A patient of whom there is no case. */
export const NO_CASES: PatientCases = { fittings: [], kept: [], delivered: [], booked: [], answers: [], outcomes: [], care: [] };

/**
 * What one patient adds to the figures of the clinic. Shape: every sum is a whole number (days, cases, squares of days, thousand-millionths of a probability and of its squared miss).
 *
 * Days without a piece are summed by patient over a period before they are squared, and a period is every month from its first on. So a month bears what it adds to the
 * sum from it onwards: of squares (w + W)² − W² with W the days of the later months; of patients 1 in the last month that has any. Summed over the months of a period this gives
 * n, how many had a day without, Σw, Σs, Σw², Σs², Σws. Example: 3 of 30 days in May and 4 of 31 in June: s² is 33 in May and 16 in June, 49 from May on and 16 from June on.
 */
export function partsOfPatient(cases: PatientCases): readonly ServicePart[] {
  const parts: ServicePart[] = [];
  const add = (figure: PartFigure, at: string, of: readonly unknown[], ...sums: number[]) =>
    parts.push({ figure, at, of: JSON.stringify(of), sums });
  for (const { day, form, outcome, reason, isFirst } of cases.fittings) {
    add('fitting', day.slice(0, 7), [form, outcome, reason, isFirst], 1);
    add('day', day, [], outcome === 'remake' ? 0 : 1, outcome === 'remake' ? 1 : 0);
  }
  for (const { month, wentBack, days, measuring, making, waiting } of cases.kept) {
    const parted = making === null ? [0, 0, 0, 0] : [1, measuring ?? 0, making, waiting ?? 0];
    add('kept', month, [wentBack, days], 1, ...parted);
  }
  for (const { month, form, days } of cases.delivered) add('delivered', month, [form, days], 1);
  for (const { month, standing } of cases.booked) add('booked', month, [standing], 1);
  for (const { month, rule, answer } of cases.answers) add('answer', month, [rule, answer], 1);
  for (const { kind, day, ...one } of cases.outcomes) {
    const month = day.slice(0, 7);
    if (kind === 'outlook') {
      add('outlook', month, [one.came, one.earlyKept, one.daysOff], 1);
      continue;
    }
    const { probability: p, changed } = one;
    const stated = p === null || changed === null ? [0, 0] : [Math.round(p * BILLION), Math.round((p - (changed ? 1 : 0)) ** 2 * BILLION)];
    if (one.against !== null && one.word !== null)
      add('verdict', month, [one.against, one.word, one.came, one.tenth, changed], 1, ...stated);
    if (one.against !== null && one.miss !== null) add('miss', month, [one.against, one.miss], 1);
  }
  for (const { kind, day, phase, lost, kept } of cases.care)
    if (kind === 'excess' && phase !== null && lost !== null) add('excess', day.slice(0, 7), [phase, lost, kept], 1);
  return summedParts([...parts, ...withoutParts(cases.care)]);
}

function withoutParts(care: PatientCases['care']): readonly ServicePart[] {
  const months = new Map<string, { whole: number; some: number }>();
  for (const { kind, day, whole, some } of care) {
    if (kind !== 'without') continue;
    const before = months.get(day.slice(0, 7)) ?? { whole: 0, some: 0 };
    months.set(day.slice(0, 7), { whole: before.whole + (whole ?? 0), some: before.some + (some ?? 0) });
  }
  const parts: ServicePart[] = [];
  let [laterWhole, laterSome] = [0, 0];
  for (const [at, { whole, some }] of [...months].sort(([one], [other]) => (one < other ? 1 : -1))) {
    const [allWhole, allSome] = [laterWhole + whole, laterSome + some];
    const sums = [
      parts.length === 0 ? 1 : 0,
      laterSome === 0 && allSome > 0 ? 1 : 0,
      whole,
      some,
      allWhole ** 2 - laterWhole ** 2,
      allSome ** 2 - laterSome ** 2,
      allWhole * allSome - laterWhole * laterSome,
    ];
    parts.push({ figure: 'without', at, of: '[]', sums });
    [laterWhole, laterSome] = [allWhole, allSome];
  }
  return parts;
}

/** Parts with those of one figure, time and kind added up; those that add nothing are left out. Linear in their number but for the order. */
export function summedParts(parts: readonly ServicePart[]): readonly ServicePart[] {
  const sums = new Map<string, ServicePart>();
  for (const part of parts) {
    const before = sums.get(nameOfPart(part));
    sums.set(nameOfPart(part), before ? { ...part, sums: added(part.sums, before.sums) } : part);
  }
  return [...sums]
    .filter(([, part]) => part.sums.some((sum) => sum !== 0))
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([, part]) => part);
}

function added(some: readonly number[], others: readonly number[]): readonly number[] {
  return Array.from({ length: Math.max(some.length, others.length) }, (_, index) => (some[index] ?? 0) + (others[index] ?? 0));
}

/** What turns the parts of before into those of after, when it is added to them. */
export function changedParts(before: readonly ServicePart[], after: readonly ServicePart[]): readonly ServicePart[] {
  return summedParts([...before.map((part) => ({ ...part, sums: part.sums.map((sum) => -sum) })), ...after]);
}

/** One name for a figure, time and kind. */
export function nameOfPart({ figure, at, of }: Omit<ServicePart, 'sums'>): string {
  return `${figure} ${at} ${of}`;
}

/**
 * The counts of a period from the parts of a clinic. No answer (undefined) where a part lies after the period: what counts of a prompt or of a patient’s days is then not what
 * the parts say.
 */
export function countsOfParts(parts: readonly ServicePart[], period: ServicePeriod): ServiceCounts | undefined {
  const isAfter = ({ figure, at }: ServicePart) => (figure === 'answer' || figure === 'without') && at > period.to;
  if (parts.some(isAfter)) return undefined;
  const of = (figure: PartFigure) => parts.filter((part) => part.figure === figure);
  const ofPeriod = (figure: PartFigure) => {
    const within = of(figure).filter(({ at }) => isInPeriod(at as Month, period));
    return summedParts(within.map((part) => ({ ...part, at: '' })));
  };
  const named = <T>(part: ServicePart): T => JSON.parse(part.of) as T;
  const sum = (part: ServicePart | undefined, index: number) => part?.sums[index] ?? 0;
  const [without] = ofPeriod('without');
  const fittings = of('fitting').map((part) => {
    const [form, outcome, reason, isFirst] = named<[string | null, 'keep' | 'alter' | 'remake', string | null, boolean]>(part);
    return { month: part.at as Month, form, outcome, reason, isFirst, n: sum(part, 0) };
  });
  const days = () => of('day').map((part) => ({ day: part.at, others: sum(part, 0), remakes: sum(part, 1) }));
  return {
    fittings,
    kept: of('kept').map((part) => {
      const [wentBack, days] = named<[boolean, number]>(part);
      const [n = 0, parted = 0, measuring = 0, making = 0, waiting = 0] = part.sums;
      return { month: part.at as Month, wentBack, days, n, parted, measuring, making, waiting };
    }),
    delivered: of('delivered').map((part) => {
      const [form, days] = named<[string | null, number]>(part);
      return { month: part.at as Month, form, days, n: sum(part, 0) };
    }),
    booked: of('booked').map((part) => ({ month: part.at as Month, standing: named<['kept' | 'missed']>(part)[0], n: sum(part, 0) })),
    betweenRemakes: areRemakesRare(fittings) ? betweenRemakes(days()) : [],
    answers: ofPeriod('answer').map((part) => {
      const [rule, answer] = named<[string, 'act' | 'not-now' | 'not-for-this-patient']>(part);
      return { rule, answer, n: sum(part, 0) };
    }),
    right: {
      verdicts: ofPeriod('verdict').map((part) => {
        const [against, word, came, tenth, changed] = named<[GivenAgainst, string, VerdictCame, number | null, boolean | null]>(part);
        return { against, word, came, tenth, changed, n: sum(part, 0), stated: sum(part, 1) / BILLION, square: sum(part, 2) / BILLION };
      }),
      misses: ofPeriod('miss').map((part) => {
        const [against, miss] = named<[GivenAgainst, number]>(part);
        return { against, miss, n: sum(part, 0) };
      }),
      outlooks: ofPeriod('outlook').map((part) => {
        const [came, earlyKept, daysOff] = named<[OutlookCame, boolean | null, number | null]>(part);
        return { came, earlyKept, daysOff, n: sum(part, 0) };
      }),
    },
    care: {
      without: {
        ...{ n: sum(without, 0), withAny: sum(without, 1), whole: sum(without, 2), some: sum(without, 3) },
        ...{ wholeSquare: sum(without, 4), someSquare: sum(without, 5), product: sum(without, 6) },
      },
      excess: ofPeriod('excess').map((part) => {
        const [phase, lost, kept] = named<[string, number, boolean | null]>(part);
        return { phase, lost, kept, n: sum(part, 0) };
      }),
    },
  };
}

/** Fittings of a day that were no remake, and those that were. */
export type FittingDay = { readonly day: string; readonly others: number; readonly remakes: number };

/**
 * Fittings between one remake and the next, the oldest first; before the first and after the last none is counted. On one day remakes come last: which came first is not kept.
 * Example: 5 others and 1 remake on the 1st, 2 others on the 2nd, 1 other and 2 remakes on the 3rd: 3, 0.
 */
export function betweenRemakes(days: readonly FittingDay[]): readonly number[] {
  const between: number[] = [];
  let since: number | undefined;
  for (const { others, remakes } of [...days].sort((one, other) => (one.day < other.day ? -1 : 1))) {
    if (since !== undefined) since += others;
    for (let remake = 0; remake < remakes; remake++) {
      if (since !== undefined) between.push(since);
      since = 0;
    }
  }
  return between;
}
