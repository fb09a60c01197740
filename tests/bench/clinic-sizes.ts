/** A clinic to be measured, and how much of each work is done on it. */
export type ClinicSize = {
  readonly patients: number;
  /** Visits of each patient, two legs of twenty places each. */
  readonly visits: number;
  readonly saves: number;
  /** Patients whose lines are renewed; the work is the same for each. */
  readonly renewed: number;
  /** Rows of ladders taken out and brought in. */
  readonly ladderRows: number;
  /** Times each page is read. */
  readonly pageTimes: number;
};

/** Twenty visits each at a thousand and at ten thousand patients; at a hundred thousand none but those of the one whose page is read. */
export const FULL: readonly ClinicSize[] = [
  { patients: 1000, visits: 20, saves: 300, renewed: 500, ladderRows: 100_000, pageTimes: 100 },
  { patients: 10_000, visits: 20, saves: 300, renewed: 1000, ladderRows: 0, pageTimes: 100 },
  { patients: 100_000, visits: 0, saves: 300, renewed: 0, ladderRows: 0, pageTimes: 100 },
];

export const QUICK: readonly ClinicSize[] = [
  { patients: 1000, visits: 5, saves: 100, renewed: 100, ladderRows: 10_000, pageTimes: 50 },
  { patients: 10_000, visits: 0, saves: 100, renewed: 0, ladderRows: 0, pageTimes: 50 },
];
