/** One figure of an observation: what it is called, its unit, the range it lies in. */
export type ObservedItem = {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
};

/** How sure a figure is: the least change that is called one, with its kind and source. A smaller one is within error. */
export type ObservedError = {
  readonly leastChange: number;
  readonly kind: 'published' | 'common practice' | 'clinic default';
  readonly source: string;
};

/**
 * Something that is looked at each time, beside the measures.
 *
 * `where`: nothing, a side, the place of a mark on a limb that is there until it is gone, or the site of a reading. Of its items at least one is given; `choices` are words of which one is chosen. Raise
 * `version` when the words of an item change: figures of two versions are never compared.
 */
export type ObservedKind = {
  readonly id: string;
  readonly version: string;
  readonly label: string;
  /** The question as it is asked. */
  readonly asks: string;
  readonly items: readonly ObservedItem[];
  readonly where: 'nowhere' | 'side' | 'place' | 'site';
  readonly choices: readonly string[];
  readonly error: ObservedError | null;
  /** Where items and range come from. */
  readonly source: string;
};
