import type { Spread } from '../ladder/doubt-limits';
import type { Ladder } from '../ladder/ladder';
import type { TypedLength } from '../units/length';

/**
 * What another ladder leads one to expect of the one being taped, at places of its own ruler (distance from zero, mm).
 *
 * `expectedMm` allows for what weight and height explain; `shownMm` is what was really taped there. Both are undefined where the other
 * ladder does not reach. `words` name it in a sentence: `on 14 Oct this place was`.
 */
export type ReferenceLine = {
  readonly kind: 'last-visit' | 'other-limb' | 'neighbours';
  readonly words: string;
  readonly expectedMm: (distanceMm: number) => number | undefined;
  readonly shownMm: (distanceMm: number) => number | undefined;
  /** How many readings stand behind what is expected there; fewer than whole ones between rungs of different number. */
  readonly ladders: (distanceMm: number) => number;
  /** SD of one reading, mm. */
  readonly readingMm: number;
  readonly spread: Spread;
};

/** A rung that was taped, at its distance from zero, mm. */
export type TapedRung = { readonly atMm: number; readonly girth: TypedLength };

/** Rungs with a girth, by distance. Example: of three rungs one empty → the other two. */
export function tapedRungs(ladder: Ladder): TapedRung[] {
  return ladder.rungs
    .flatMap((rung) => (rung.girth ? [{ atMm: rung.distance.nm / 1e6, girth: rung.girth }] : []))
    .sort((one, other) => one.atMm - other.atMm);
}
