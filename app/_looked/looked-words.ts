import { placeInWords } from '@/lib/forms/read-observation';
import type { ObservedKind } from '@/lib/observations/kind';
import type { Observation } from '@/lib/observations/observation';
import { showDay } from '@/lib/units/calendar-day';

/** An observation in words. Example: `red, left leg, 25 % of the way up, 20 mm; at the seam; gone 20 Oct 2026`. */
export function lookedInWords(one: Observation, kinds: readonly ObservedKind[]): string {
  const kind = kinds.find(({ id }) => id === one.kind);
  const figures = Object.entries(one.figures).map(([id, value]) => {
    const item = kind?.items.find((each) => each.id === id);
    const unit = item?.unit === '°' ? '°' : item?.unit ? `\u202f${item.unit}` : '';
    return `${item && kind && kind.items.length > 1 ? `${item.label} ` : ''}${value}${unit}`;
  });
  const parts = [one.choice, one.side, one.place && placeInWords(one.place), ...figures].filter(Boolean).join(', ');
  return [parts, one.words, one.gone && `gone ${showDay(one.gone)}`].filter(Boolean).join('; ');
}

/** The boxes of its form as they stand for an observation. */
export function typedLooked(one: Observation): Readonly<Record<string, string>> {
  return {
    ...{ day: one.day, side: one.side ?? '', choice: one.choice ?? '', words: one.words ?? '' },
    limb: one.place ? `${one.place.side} ${one.place.limb}` : '',
    along: one.place ? String(Math.round(one.place.along * 100)) : '',
    ...Object.fromEntries(Object.entries(one.figures).map(([id, value]) => [`item-${id}`, String(value)])),
  };
}
