import { createHash } from 'node:crypto';

/** Figures are compared to so many digits: far beyond what anybody reads, well short of where two processors differ. */
const DIGITS = 6;

/** Parts of an answer that are given, not found: they are left out. */
const GIVEN: ReadonlySet<string> = new Set(['record', 'trusted', 'policy', 'today']);

/**
 * A short name of everything an answer says: its figures to six digits, its words, its lists in order. Two answers of one name are the same.
 *
 * Functions are left out, what they give stands elsewhere. What stands in an answer more than once is looked at once.
 */
export function digest(answer: unknown): string {
  return nameOf(answer, new Map()).slice(0, 10);
}

function nameOf(value: unknown, seen: Map<object, string>): string {
  if (value === null || typeof value !== 'object') return plain(value);
  const known = seen.get(value);
  if (known !== undefined) return known;
  seen.set(value, 'itself');
  const hash = createHash('sha256');
  for (const [key, part] of partsOf(value)) hash.update(`${key}=${nameOf(part, seen)};`);
  const name = hash.digest('hex').slice(0, 16);
  seen.set(value, name);
  return name;
}

function partsOf(value: object): Iterable<readonly [unknown, unknown]> {
  if (value instanceof Map) return [...value].map(([key, part]) => [typeof key === 'object' ? 'key' : key, [key, part]]);
  if (value instanceof Set) return [...value].entries();
  if (ArrayBuffer.isView(value)) return Array.from(value as Float64Array).entries();
  return Object.entries(value).filter(([key, part]) => !GIVEN.has(key) && typeof part !== 'function' && part !== undefined);
}

function plain(value: unknown): string {
  if (typeof value !== 'number') return `${typeof value} ${String(value)}`;
  return Math.abs(value) < 1e-9 ? '0' : value.toPrecision(DIGITS);
}
