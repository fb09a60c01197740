/** What looks odd about a reading. A doubt asks; it never refuses and never changes a figure. */
export type DoubtKind =
  | 'neighbours'
  | 'swapped-digits'
  | 'tens-digit'
  | 'times-ten'
  | 'inch-centimetre'
  | 'out-of-range'
  | 'girth-at-joint'
  | 'ladder-length'
  | 'equals-other-limb'
  | 'equals-last-visit'
  | 'shifted-rungs'
  | 'swapped-neighbours'
  | 'sides-swapped'
  | 'last-visit';

/** A question about one rung (its distance from the ladder's zero, mm) or about the whole ladder (null). */
export type Doubt = {
  readonly kind: DoubtKind;
  readonly distanceMm: number | null;
  readonly message: string;
  /** A girth that would fit, mm, where a usual slip explains the odd one. */
  readonly wouldFitMm?: number;
};
