/** Of one thing so many parts are kept at most; more are made each time. */
const MOST = 32;

const kept = new WeakMap<object, Map<string, unknown>>();

/**
 * What is made of a thing, once for as long as that very thing is asked about.
 *
 * `of` is what it is made from: an analysis is another one after every write, on another day and under other limits (`remembered-work`), and what
 * was made of it goes with it. `name` says what is made, with everything else that it depends on. It may depend on `of` and `name` alone.
 */
export function oncePer<T>(of: object, name: string, make: () => T): T {
  const parts = kept.get(of) ?? new Map<string, unknown>();
  kept.set(of, parts);
  if (parts.has(name)) return parts.get(name) as T;
  const made = make();
  if (parts.size < MOST) parts.set(name, made);
  return made;
}
