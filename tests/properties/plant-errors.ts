import type { Ladder, Rung } from '@/lib/ladder/ladder';
import { exactText } from '@/lib/units/exact-text';
import { asNanometres, type LengthUnit, NANOMETRES_IN, type TypedLength } from '@/lib/units/length';
import type { Random } from '@/tests/cohort/random';

/** A ladder with one planted error, and the distances (mm) at which a question would find it. */
export type Planted = { readonly ladder: Ladder; readonly at: readonly number[] };

/** Plants one error of a kind; undefined where this ladder cannot hold it. */
export type Plant = (ladder: Ladder, random: Random) => Planted | undefined;

const PER = (unit: LengthUnit) => Number(NANOMETRES_IN[unit]);

function girthOf(nm: number, unit: LengthUnit): TypedLength {
  const whole = Math.round(nm);
  return { text: exactText(whole, unit), unit, nm: asNanometres(whole) };
}

function withGirth(ladder: Ladder, index: number, nm: number): Ladder {
  const rungs = ladder.rungs.map((rung, at): Rung => (at === index ? { ...rung, girth: girthOf(nm, ladder.unit) } : rung));
  return { ...ladder, rungs };
}

const girthNm = (ladder: Ladder, index: number): number => ladder.rungs[index]?.girth?.nm ?? 0;
const atMm = (ladder: Ladder, index: number): number => (ladder.rungs[index]?.distance.nm ?? 0) / 1e6;
const anyRung = (ladder: Ladder, random: Random): number => Math.floor(random.uniform() * ladder.rungs.length);

const single =
  (change: (nm: number, unit: LengthUnit, random: Random) => number | undefined): Plant =>
  (ladder, random) => {
    const index = anyRung(ladder, random);
    const nm = change(girthNm(ladder, index), ladder.unit, random);
    return nm === undefined ? undefined : { ladder: withGirth(ladder, index, nm), at: [atMm(ladder, index)] };
  };

/** The digits of the figure as a person typed it: all of a decimal, the whole part beside a fraction. */
function swappedFigures(nm: number, unit: LengthUnit): number[] {
  const per = PER(unit);
  const whole = Math.floor(nm / per);
  const tenths = unit === 'cm' ? Math.round((nm - whole * per) / (per / 10)) : undefined;
  const digits = `${whole}${tenths ?? ''}`;
  const rest = tenths === undefined ? nm - whole * per : 0;
  const figures: number[] = [];
  for (let at = 0; at + 1 < digits.length; at++) {
    const swapped = digits.slice(0, at) + digits[at + 1] + digits[at] + digits.slice(at + 2);
    figures.push(tenths === undefined ? Number(swapped) * per + rest : (Number(swapped) * per) / 10);
  }
  return figures;
}

/** One figure ten times or a tenth of what was taped. */
export const timesTen = single((nm, _unit, random) => (random.uniform() < 0.5 ? nm * 10 : nm / 10));

/** One figure read off the other side of the tape. */
export const otherUnit = single((nm, unit) => {
  const other: LengthUnit = unit === 'in' ? 'cm' : 'in';
  const step = unit === 'in' ? 10 : 8;
  return (Math.round((nm / PER(other)) * step) / step) * PER(unit);
});

/** One figure with another tens digit. */
export const wrongTens = single((nm, unit, random) => {
  const per = PER(unit);
  const tens = Math.floor(nm / per / 10) % 10;
  const wrong = Math.floor(random.uniform() * 10);
  return wrong === tens || (wrong === 0 && nm / per < 10) ? undefined : nm + (wrong - tens) * 10 * per;
});

/** One figure with two neighbouring digits changed round, moved by more than 1 cm. */
export const swappedDigits = single((nm, unit, random) => {
  const figures = swappedFigures(nm, unit).filter((figure) => Math.abs(figure - nm) > 10e6 && figure > 0);
  return figures.length === 0 ? undefined : random.pick(figures);
});

/** One rung left out: every later figure stands one rung too early, and the last rung is empty. */
export const skippedRung: Plant = (ladder, random) => {
  const from = Math.floor(random.uniform() * (ladder.rungs.length - 2));
  const rungs = ladder.rungs.map((rung, index): Rung => (index < from ? rung : { ...rung, girth: ladder.rungs[index + 1]?.girth ?? null }));
  return { ladder: { ...ladder, rungs }, at: ladder.rungs.slice(from).map((_, index) => atMm(ladder, from + index)) };
};

/** One rung typed twice: every later figure stands one rung too late. */
export const doubledRung: Plant = (ladder, random) => {
  const from = 1 + Math.floor(random.uniform() * (ladder.rungs.length - 3));
  const rungs = ladder.rungs.map((rung, index): Rung => (index < from ? rung : { ...rung, girth: ladder.rungs[index - 1]?.girth ?? null }));
  return { ladder: { ...ladder, rungs }, at: ladder.rungs.slice(from - 1).map((_, index) => atMm(ladder, from - 1 + index)) };
};

/** Two neighbouring figures changed round that differ by more than 1 cm. */
export const swappedNeighbours: Plant = (ladder, random) => {
  const from = Math.floor(random.uniform() * (ladder.rungs.length - 1));
  const [lower, upper] = [girthNm(ladder, from), girthNm(ladder, from + 1)];
  if (Math.abs(upper - lower) < 10e6) return undefined;
  return { ladder: withGirth(withGirth(ladder, from, upper), from + 1, lower), at: [atMm(ladder, from), atMm(ladder, from + 1)] };
};

/** A whole ladder read off the other side of the tape. */
export const wholeInOtherUnit: Plant = (ladder) => {
  const other: LengthUnit = ladder.unit === 'in' ? 'cm' : 'in';
  const step = ladder.unit === 'in' ? 10 : 8;
  const rungs = ladder.rungs.map((rung): Rung => {
    const nm = (Math.round(((rung.girth?.nm ?? 0) / PER(other)) * step) / step) * PER(ladder.unit);
    return { ...rung, girth: girthOf(nm, ladder.unit) };
  });
  return { ladder: { ...ladder, rungs }, at: ladder.rungs.map((_, index) => atMm(ladder, index)) };
};
