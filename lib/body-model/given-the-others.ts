import { invertSymmetric } from '../statistics/invert-symmetric';

/** One figure of a jointly normal set beside what the others expect of it: mean and SD. */
export type Expected = { readonly mean: number; readonly sd: number };

/** A set of jointly normal figures that grows smaller as figures in doubt are taken out. */
export type JointFigures = {
  /** What all figures that are still in expect of this one. */
  readonly expected: (index: number) => Expected;
  /** Without one figure. */
  readonly without: (index: number) => JointFigures;
};

/**
 * What each figure of a jointly normal set should be by all the others together.
 *
 * With the inverse covariance P and apart = y − mean: mean of y(i) given the rest = y(i) − (P·apart)(i) / P(i,i), variance 1 / P(i,i).
 * Taking figure k out: P(i,j) − P(i,k) P(k,j) / P(k,k). Undefined where the covariance has no inverse.
 * Shape: figures, means, covariance rows, all of one length. Source: conditional normal law; the inverse of a matrix without one row and column.
 * Example: two figures of mean 0, variance 1 and correlation 0.8, the first 1: the second is expected at 0.8 with SD 0.6.
 */
export function jointFigures(
  figures: readonly number[],
  means: readonly number[],
  covariance: readonly (readonly number[])[],
): JointFigures | undefined {
  const precision = invertSymmetric(covariance);
  if (!precision) return undefined;
  const apart = figures.map((figure, index) => figure - (means[index] as number));
  return among(figures, apart, precision);
}

function among(figures: readonly number[], apart: readonly number[], precision: readonly (readonly number[])[]): JointFigures {
  return {
    expected: (index) => {
      const row = precision[index] as readonly number[];
      const own = row[index] as number;
      const pull = row.reduce((sum, value, other) => sum + value * (apart[other] as number), 0);
      return { mean: (figures[index] as number) - pull / own, sd: 1 / Math.sqrt(own) };
    },
    without: (out) => {
      const own = (precision[out] as readonly number[])[out] as number;
      const rest = precision.map((row, index) =>
        row.map((value, other) => {
          if (index === out || other === out) return index === other ? 1 : 0;
          return value - ((row[out] as number) * ((precision[out] as readonly number[])[other] as number)) / own;
        }),
      );
      return among(figures, apart, rest);
    },
  };
}
