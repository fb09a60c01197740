import type { NoAnswer } from '../outcome';
import { frustum } from '../volume/frustum';

/** Lengths of one hand, mm, by the ids of the catalogue. */
export type HandMeasures = ReadonlyMap<string, number>;

/** A volume that stands for change alone: made of round slices, while a hand is flat. */
export type ShapeIndex = {
  readonly palmMl: number;
  readonly digitsMl: number;
  readonly wholeMl: number;
  /** What the figure is, beside it wherever it stands. */
  readonly words: string;
};

const DIGITS = ['thumb', 'index-finger', 'middle-finger', 'ring-finger', 'little-finger'] as const;

/** Beside every volume of a hand. Source: ANSUR II 2012, medians: circle of the palm's girth against the ellipse and the flat form with round edges. */
const WORDS =
  'Shape index of round slices: for change of this hand only. A hand is flat and holds about a fifth to two fifths less; never add it to an arm.';

/**
 * Volume of a hand as if all its slices were round: the palm from wrist to knuckles, and five digits from base to tip.
 *
 * V = Σ h (C₁² + C₁C₂ + C₂²) / 12π over the palm (wrist girth, hand girth, palm length) and each digit (base girth, tip girth, length).
 * No answer unless all of them were taken; nothing is filled in. Shape: mm by id; ml. Source: geometry of the circular frustum.
 * Example: a palm of 9 cm from 16 to 20 cm is 233.0028 ml; with five digits of together 84.1792 ml the hand is 317.1820 ml.
 */
export function handVolume(measures: HandMeasures): ShapeIndex | NoAnswer {
  const wanted = ['wrist-girth', 'hand-girth', 'palm-length', ...DIGITS.flatMap((digit) => digitIds(digit))];
  const missing = wanted.filter((id) => !measures.has(id));
  if (missing.length > 0) return { noAnswer: `A volume of the hand needs ${missing.join(', ')} too.` };
  const of = (id: string) => measures.get(id) ?? 0;
  const palmMl = frustum(of('palm-length'), of('wrist-girth'), of('hand-girth')) / 1000;
  const digitsMl = DIGITS.reduce((sum, digit) => {
    const [length, base, tip] = digitIds(digit).map(of) as [number, number, number];
    return sum + frustum(length, base, tip) / 1000;
  }, 0);
  return { palmMl, digitsMl, wholeMl: palmMl + digitsMl, words: WORDS };
}

function digitIds(digit: (typeof DIGITS)[number]): readonly string[] {
  return [`${digit}-length`, `${digit}-base-girth`, `${digit}-tip-girth`];
}
