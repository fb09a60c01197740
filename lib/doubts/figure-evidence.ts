import type { Expected } from '../body-model/given-the-others';
import type { DoubtKind } from '../ladder/doubt';
import { slipsOfFigure } from '../ladder/slip';

/** A figure as typed: its text, its value in its own unit, what one unit is (mm or kg), and how many of the smaller unit go into the larger. */
export type TypedFigure = { readonly text: string; readonly value: number; readonly unitValue: number; readonly otherUnit: number };

/** A slip that may have made the figure, and the value it would put in its place, mm or kg. */
export type MeasureSlip = { readonly kind: DoubtKind; readonly value: number };

/** The natural logarithm of the odds that a figure is wrong, and the slip that explains it best, where a slip explains it better than anything else. */
export type Evidence = { readonly logOdds: number; readonly slip: MeasureSlip | undefined };

/**
 * Of a hundred wrong figures, how many come of what. `other`: another place, another measure, a misread tape.
 *
 * Clinic default; the kinds as in `ladder/slip`. All of them halved or doubled: tests/FIGURES.md.
 */
const SLIP_SHARES = { 'tens-digit': 0.4, 'swapped-digits': 0.2, 'times-ten': 0.15, 'inch-centimetre': 0.1, other: 0.15 } as const;

/** Half of the wrong tens digits are the neighbouring digit: the next key, the next ten of the tape. Clinic default. */
const NEXT_DIGIT = 0.5;
/** A figure that is wrong in any other way lies within a factor of four of the right one, evenly on a logarithmic scale. Clinic default. */
const ANYWHERE = 1 / (2 * Math.log(4));
/** A few people are put together otherwise than the rest: their share, and how many times wider they spread. Clinic default. */
const UNLIKE = { share: 0.002, times: 3 } as const;

/**
 * The odds that a typed figure is wrong, by what is expected in its place.
 *
 * odds = s Σ w(k) c(k) p(x(k)) / ((1 − s) p(x)): s the share of wrong figures, x(k) every figure that a usual slip may have turned into x
 * with its share w(k), c(k) = x / x(k) where the step of the tape stays and 1 where it grows with the figure (decimal mark, other unit),
 * p the density of the logarithm of a right figure (normal, with a few people of three times the spread), and one part for a figure wrong
 * in any other way. One rule for all measures: no limit in SDs.
 * Shape: the figure as typed, the mean and SD of its natural logarithm (mm or kg), the share. Source: Bayes' theorem.
 * Example: 31.2 cm where 21.2 (SD 3 %) is expected: odds of some e⁷⁰, best slip a wrong tens digit, 212 mm.
 */
export function figureEvidence(typed: TypedFigure, expected: Expected, wrongShare: number): Evidence {
  const found = typed.value * typed.unitValue;
  const anyhow = Math.log(SLIP_SHARES.other * ANYWHERE);
  const weighed = slipsOf(typed).map(({ slip, share }) => ({
    slip,
    weight: Math.log(share * cellRatio(slip, found)) + logDensity(Math.log(slip.value), expected),
  }));
  const best = weighed.reduce((one, other) => (other.weight > one.weight ? other : one), { slip: undefined, weight: anyhow } as {
    readonly slip: MeasureSlip | undefined;
    readonly weight: number;
  });
  const sum = weighed.reduce((total, { weight }) => total + Math.exp(weight - best.weight), Math.exp(anyhow - best.weight));
  const wrong = best.weight + Math.log(sum);
  return { logOdds: Math.log(wrongShare / (1 - wrongShare)) + wrong - logDensity(Math.log(found), expected), slip: best.slip };
}

/** A figure is one step of the tape wide; on a logarithmic scale a larger figure is narrower, unless its step grew with it. */
function cellRatio(slip: MeasureSlip, found: number): number {
  return slip.kind === 'times-ten' || slip.kind === 'inch-centimetre' ? 1 : found / slip.value;
}

/** Logarithm of the density of a right figure; what is far out is left to the few who spread wider, so that nothing underflows. */
function logDensity(log: number, { mean, sd }: Expected): number {
  const z2 = ((log - mean) / sd) ** 2;
  const usual = Math.log(1 - UNLIKE.share) - z2 / 2;
  const unlike = Math.log(UNLIKE.share / UNLIKE.times) - z2 / (2 * UNLIKE.times ** 2);
  const most = Math.max(usual, unlike);
  return most + Math.log(Math.exp(usual - most) + Math.exp(unlike - most)) - Math.log(sd * Math.sqrt(2 * Math.PI));
}

/** Every figure that may have been meant, with its share of all wrong ones. */
function slipsOf({ text, value, unitValue, otherUnit }: TypedFigure): { readonly slip: MeasureSlip; readonly share: number }[] {
  const slips = [...slipsOfFigure(text, value, otherUnit), ...firstDigits(value), ...nextTens(value)];
  const many = new Map<DoubtKind, number>();
  for (const { kind } of slips) many.set(kind, (many.get(kind) ?? 0) + 1);
  const step = value < 10 ? 1 : 10;
  const isNext = (one: { kind: DoubtKind; value: number }) =>
    one.kind === 'tens-digit' && Math.abs(Math.abs(one.value - value) - step) < 1e-6;
  const next = slips.filter(isNext).length;
  return slips.map((one) => {
    const slip = { kind: one.kind, value: one.value * unitValue };
    const all = SLIP_SHARES[one.kind as keyof typeof SLIP_SHARES];
    const count = many.get(one.kind) ?? 1;
    if (one.kind !== 'tens-digit' || next === 0) return { slip, share: all / count };
    const share = isNext(one) ? NEXT_DIGIT / next : (1 - NEXT_DIGIT) / Math.max(1, count - next);
    return { slip, share: all * share };
  });
}

/** A figure below ten has no tens digit: its first digit may be wrong instead. Example: 8.8 may have been 7.8 or 9.8. */
function firstDigits(value: number): { readonly kind: DoubtKind; readonly value: number }[] {
  if (value >= 10) return [];
  const first = Math.floor(value + 1e-9);
  return [1, 2, 3, 4, 5, 6, 7, 8, 9]
    .filter((digit) => digit !== first)
    .map((digit) => ({ kind: 'tens-digit', value: value - first + digit }));
}

/** A ten more or less that also changes the hundreds: the tape read at the wrong ten. Example: 95.4 may have been 105.4. */
function nextTens(value: number): { readonly kind: DoubtKind; readonly value: number }[] {
  return [value - 10, value + 10]
    .filter((other) => other > 0 && Math.floor(other / 100 + 1e-9) !== Math.floor(value / 100 + 1e-9))
    .map((other) => ({ kind: 'tens-digit', value: other }));
}
