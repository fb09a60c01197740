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
 * Taking figure k out: P(i,j) − P(i,k) P(k,j) / P(k,k). Figures that no covariance joins are worked out apart, which is exact and costs
 * less: the work grows with the third power of a group. Undefined where a covariance has no inverse.
 * Shape: figures, means, covariance rows, all of one length. Source: conditional normal law; the inverse of a matrix without one row and column.
 * Example: two figures of mean 0, variance 1 and correlation 0.8, the first 1: the second is expected at 0.8 with SD 0.6.
 */
export function jointFigures(
  figures: readonly number[],
  means: readonly number[],
  covariance: readonly (readonly number[])[],
): JointFigures | undefined {
  const places = new Map<number, { readonly group: number; readonly at: number }>();
  const groups: Group[] = [];
  for (const members of joined(covariance)) {
    const precision = invertSymmetric(
      members.map((row) => members.map((column) => (covariance[row] as readonly number[])[column] as number)),
    );
    if (!precision) return undefined;
    members.forEach((index, at) => {
      places.set(index, { group: groups.length, at });
    });
    const own = members.map((index) => figures[index] as number);
    groups.push({ figures: own, apart: own.map((figure, at) => figure - (means[members[at] as number] as number)), precision });
  }
  return among(groups, places);
}

/** Figures that go together, and the inverse of their covariance. */
type Group = { readonly figures: readonly number[]; readonly apart: readonly number[]; readonly precision: readonly (readonly number[])[] };

type Places = ReadonlyMap<number, { readonly group: number; readonly at: number }>;

function among(groups: readonly Group[], places: Places): JointFigures {
  const find = (index: number) => {
    const place = places.get(index);
    if (!place) throw new RangeError(`no figure ${index}`);
    return { ...place, own: groups[place.group] as Group };
  };
  return {
    expected: (index) => {
      const { own, at } = find(index);
      const row = own.precision[at] as readonly number[];
      const diagonal = row[at] as number;
      const pull = row.reduce((sum, value, other) => sum + value * (own.apart[other] as number), 0);
      return { mean: (own.figures[at] as number) - pull / diagonal, sd: 1 / Math.sqrt(diagonal) };
    },
    without: (index) => {
      const { own, group, at } = find(index);
      return among(groups.with(group, { ...own, precision: withoutOne(own.precision, at) }), places);
    },
  };
}

/** The inverse of a covariance without one figure; that figure stays as one that joins nothing. */
function withoutOne(precision: readonly (readonly number[])[], out: number): readonly (readonly number[])[] {
  const gone = precision[out] as readonly number[];
  return precision.map((row, index) =>
    row.map((value, other) => {
      if (index === out || other === out) return index === other ? 1 : 0;
      return value - ((row[out] as number) * (gone[other] as number)) / (gone[out] as number);
    }),
  );
}

/** The figures in groups that a covariance other than 0 joins, directly or through others. */
function joined(covariance: readonly (readonly number[])[]): number[][] {
  const left = new Set(covariance.keys());
  const groups: number[][] = [];
  for (const first of covariance.keys()) {
    if (!left.delete(first)) continue;
    const group = [first];
    for (const member of group) {
      (covariance[member] as readonly number[]).forEach((value, other) => {
        if (value !== 0 && left.delete(other)) group.push(other);
      });
    }
    groups.push(group);
  }
  return groups;
}
