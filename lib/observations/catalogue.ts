import type { ObservedKind } from './kind';
import { GARMENT_PRESSURE } from './kinds/garment-pressure';
import { HOURS_WORN } from './kinds/hours-worn';
import { ITCH } from './kinds/itch';
import { MOTION } from './kinds/motion';
import { SCAR } from './kinds/scar';
import { SKIN_MARK } from './kinds/skin-mark';
import type { Observation } from './observation';

/** Everything that is looked at, one file a kind. */
export const OBSERVED_KINDS: readonly ObservedKind[] = [HOURS_WORN, GARMENT_PRESSURE, SKIN_MARK, SCAR, MOTION, ITCH];

/** Something that a clinic added itself: one figure with its range. `asked` is false for one that is asked no more; its figures stay readable. */
export type OwnKind = {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly leastChange: number | null;
  readonly asked: boolean;
};

/** Most kinds a clinic adds, longest name and unit. */
export const OWN_KIND_BOUNDS = { most: 20, label: 60, unit: 20, figure: 100_000 } as const;

/** Every kind that a clinic knows: those of the catalogue, then its own. */
export function kindsOf(own: readonly OwnKind[]): readonly ObservedKind[] {
  return [...OBSERVED_KINDS, ...own.map(ownKind)];
}

function ownKind({ id, label, unit, low, high, leastChange }: OwnKind): ObservedKind {
  return {
    ...{ id, version: '1', label, asks: `${label}, from ${low} to ${high}${unit ? ` ${unit}` : ''}.` },
    items: [{ id: 'figure', label, unit, low, high }],
    ...{ where: 'nowhere', choices: [] },
    error: leastChange === null ? null : { leastChange, kind: 'clinic default', source: 'Set by the clinic with what it looks at.' },
    source: 'Added by the clinic.',
  };
}

/** Figures of one item over time that may be compared: one version, one side, one choice. Raters stand with their points: a change between two is said. */
export type TimeLine = {
  readonly kind: ObservedKind;
  readonly item: ObservedKind['items'][number];
  readonly side: Observation['side'];
  readonly choice: string | null;
  readonly points: readonly { readonly day: Observation['day']; readonly value: number; readonly rater: string | null }[];
};

/**
 * Observations as time lines, in the order of the catalogue; figures of another version of a kind are a line of their own, with that version.
 *
 * Shape: observations by day, the kinds a clinic knows. A kind that is not known any more is left out. Cost: linear but for the sorting of kinds.
 */
export function timeLines(observations: readonly Observation[], kinds: readonly ObservedKind[]): readonly TimeLine[] {
  const found = new Map<string, { readonly line: Omit<TimeLine, 'points'>; readonly points: TimeLine['points'][number][] }>();
  for (const { kind: id, version, day, figures, side, choice, rater } of observations) {
    const kind = kinds.find((one) => one.id === id);
    if (!kind || kind.where === 'place' || kind.where === 'site') continue;
    for (const item of kind.items) {
      const value = figures[item.id];
      if (value === undefined) continue;
      const key = [id, version, item.id, side, choice].join(' ');
      const at = found.get(key) ?? { line: { kind: { ...kind, version }, item, side, choice }, points: [] };
      found.set(key, at);
      at.points.push({ day, value, rater });
    }
  }
  const place = ({ kind, item }: Pick<TimeLine, 'kind' | 'item'>) =>
    kinds.findIndex(({ id }) => id === kind.id) * 100 + kind.items.findIndex(({ id }) => id === item.id);
  return [...found.values()].map(({ line, points }) => ({ ...line, points })).sort((one, other) => place(one) - place(other));
}

/**
 * How the newest figure of a line differs from the one before, in words; undefined for a first one.
 *
 * A change below the least one of its kind is said to be within error; where raters differ, that they do. Example: `down by 1 of 10, within error`.
 */
export function changeInWords({ kind, item, points }: TimeLine): string | undefined {
  const [before, now] = points.slice(-2);
  if (!before || !now) return undefined;
  const by = Math.round((now.value - before.value) * 100) / 100;
  const unit = item.unit === '°' ? '°' : item.unit ? ` ${item.unit}` : '';
  const other = kind.error && before.rater && now.rater && before.rater !== now.rater ? ', by another rater' : '';
  if (by === 0) return `as before${other}`;
  const within = kind.error && Math.abs(by) < kind.error.leastChange ? ', within error' : '';
  return `${by > 0 ? 'up' : 'down'} by ${Math.abs(by)}${unit}${within}${other}`;
}
