import { measureOf } from './catalogue';
import type { Measure, OwnMeasure } from './measure';

/** What a clinic's list holds of it: whether it is still asked for. A retired one is kept, and its figures stay readable. */
export type ListedMeasure = OwnMeasure & { readonly asked: boolean };

/** How many, and how long each text may be; mm. Clinic defaults. */
export const OWN_MEASURE_BOUNDS = {
  most: 40,
  name: 60,
  definition: 300,
  source: 160,
  smallestMm: 1,
  largestMm: 2500,
  largestSdMm: 50,
} as const;

export const OWN_MEASURE_ID = /^own-[0-9a-f]{12}$/;

/** A clinic's own measure as the catalogue holds others: no survey knows it, so that its middle is that of its range and nothing is known of its growth. */
export function asMeasure(own: OwnMeasure): Measure {
  const { id, part, name, kind, sides, definition, source, tapeSdMm, lowMm, highMm } = own;
  return {
    ...{ id, part, name, kind, sides, definition, source, tapeSdMm, own: asDefinition(own) },
    ...{ usualMm: null, childrenMm: null, yearlyGrowthMm: null },
    roughMm: Math.sqrt(lowMm * highMm),
    growth: 'Added by the clinic: how it grows is not known.',
  };
}

/** The measure that a figure was taken by: the clinic's own by the definition beside it, else the catalogue's; undefined where neither has it. */
export function measureTaken({ measure, own }: { readonly measure: string; readonly own?: OwnMeasure }): Measure | undefined {
  if (own) return own.id === measure ? asMeasure(own) : undefined;
  return measureOf(measure);
}

/** A figure's definition, where it has one, for a record, a form or a row. */
export function withOwn({ own }: Measure): { readonly own?: OwnMeasure } {
  return own ? { own } : {};
}

/** Whether two definitions are one. */
export function isSameOwn(one: OwnMeasure, other: OwnMeasure): boolean {
  return (Object.keys(asDefinition(one)) as (keyof OwnMeasure)[]).every((field) => one[field] === other[field]);
}

/** The definition alone, as figures carry it. */
export function asDefinition({ id, part, name, kind, sides, lowMm, highMm, tapeSdMm, definition, source }: OwnMeasure): OwnMeasure {
  return { id, part, name, kind, sides, lowMm, highMm, tapeSdMm, definition, source };
}

/** The clinic's list and, behind it, what figures of a record were taken by that it does not have: a record that came from elsewhere goes on. */
export function knownOwnMeasures(
  listed: readonly ListedMeasure[],
  visits: readonly { readonly measures?: readonly { readonly own?: OwnMeasure }[] | null }[],
): readonly ListedMeasure[] {
  const met = visits.flatMap(({ measures }) => (measures ?? []).flatMap(({ own }) => own ?? []));
  const others = new Map(met.filter(({ id }) => !listed.some((one) => one.id === id)).map((own) => [own.id, { ...own, asked: true }]));
  return [...listed, ...others.values()];
}

/** Those that a sheet offers: what is asked, and what stands on the form already. */
export function offeredMeasures(known: readonly ListedMeasure[], onForm: readonly OwnMeasure[]): readonly OwnMeasure[] {
  const asked = known.filter((one) => one.asked).map(asDefinition);
  return [...asked, ...onForm.filter(({ id }) => !asked.some((one) => one.id === id))];
}
