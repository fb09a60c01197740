import { isPlainText, LONGEST_TEXT } from '@/lib/units/plain-text';

/** Characters that a box of a form may hold; boxes that are not named here are words, at most `LONGEST_TEXT`. */
const LENGTHS: Readonly<Record<string, number>> = {
  piece: 60,
  reduction: 60,
  allowance: 60,
  quantity: 60,
  lifeDays: 60,
  leadDays: 60,
  email: 320,
  current: 1000,
  password: 1000,
  sealed: 2000,
  /** A document as it was shown, sent back to be signed. */
  shown: 200_000,
};

/** Boxes of one form; the largest, a clinic's limits, has about a hundred. */
const MOST_BOXES = 500;

/** A box that holds what no form asks for. Its mark tells the page which one and why; what was typed is put back there. */
class BoxRefused extends Error {
  readonly digest: string;
  constructor(why: 'too-long' | 'not-text', box: string, most: number) {
    super(`a box is refused: ${why}`);
    this.digest = `${why}/${box.slice(0, 40).replace(/[^\w-]/g, ' ')}/${most}`;
  }
}

/** The boxes of a posted form as they were typed, by name; of two with one name the later counts. Files are left out. Throws when one is too long or no text. */
export function postedText(form: FormData): Record<string, string> {
  const boxes = [...form.entries()];
  if (boxes.length > MOST_BOXES) throw new BoxRefused('too-long', 'boxes', MOST_BOXES);
  return Object.fromEntries(boxes.flatMap(([box, value]) => (typeof value === 'string' ? [[box, bounded(box, value)]] : [])));
}

function bounded(box: string, value: string): string {
  const most = LENGTHS[box] ?? LONGEST_TEXT;
  if (value.length > most) throw new BoxRefused('too-long', box, most);
  if (!isPlainText(value)) throw new BoxRefused('not-text', box, most);
  return value;
}
