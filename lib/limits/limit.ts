/** Where a limit comes from: a publication, the custom of the trade, or this clinic's own choice. */
export type SourceKind = 'published' | 'common practice' | 'clinic default';

/** A figure the clinic can set: its value, unit, where the default comes from, and what it does. */
export type Limit = {
  readonly value: number;
  readonly unit: string;
  readonly kind: SourceKind;
  readonly source: string;
  readonly does: string;
};

/** A limit from its parts. */
export const limit = (value: number, unit: string, kind: SourceKind, source: string, does: string): Limit => ({
  value,
  unit,
  kind,
  source,
  does,
});
