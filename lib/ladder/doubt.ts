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
  | 'last-visit'
  | 'other-limb'
  | 'taped-twice'
  | 'body-size'
  | 'height'
  | 'weight'
  | 'same-day'
  | 'zero-direction';

/**
 * A question about one rung (its distance from the ladder's zero, mm) or about the whole ladder (null).
 *
 * `message` begins with the question itself, up to its first question mark; what it stands on follows.
 */
export type Doubt = {
  readonly kind: DoubtKind;
  readonly distanceMm: number | null;
  readonly message: string;
  /** A girth that would fit, mm, where a usual slip explains the odd one. */
  readonly wouldFitMm?: number;
  /** `shifted-rungs`: the later figures belong one rung further on (1) or back (−1). */
  readonly moveBy?: 1 | -1;
};

/** A doubt's question and the reasons after it. Example: `13½ in: 21⅛ or 12⅛?` and `The rung below is 11¼.` */
export function questionAndReason(doubt: Pick<Doubt, 'message'>): {
  readonly question: string;
  readonly reason: string;
} {
  const end = doubt.message.indexOf('?') + 1;
  return {
    question: doubt.message.slice(0, end),
    reason: doubt.message.slice(end).trim(),
  };
}
