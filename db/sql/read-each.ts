import { ZodError } from 'zod';

/**
 * Reads some things together; when that fails because of what a row says, one by one, so that only the damaged ones are left out.
 *
 * A value that cannot be parsed throws a SyntaxError, one of another shape than expected a TypeError, RangeError or ZodError, one that the engine itself cannot parse says
 * so (SQLite: malformed JSON; PostgreSQL: class 22); anything else, such as a lost connection, is thrown on.
 */
export async function readEach<T, Read>(
  things: readonly T[],
  read: (some: readonly T[]) => Promise<readonly Read[]>,
): Promise<{ readonly read: readonly Read[]; readonly failed: readonly T[] }> {
  try {
    return { read: await read(things), failed: [] };
  } catch (error) {
    if (!isOfRow(error)) throw error;
  }
  const good: Read[] = [];
  const failed: T[] = [];
  for (const one of things) {
    try {
      good.push(...(await read([one])));
    } catch (error) {
      if (!isOfRow(error)) throw error;
      failed.push(one);
    }
  }
  return { read: good, failed };
}

/** What work on a record gives; undefined when a value of the record has not the shape it should have. */
export function unlessDamaged<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch (error) {
    if (!isOfRow(error)) throw error;
    return undefined;
  }
}

function isOfRow(error: unknown): boolean {
  for (let one = error; one instanceof Error; one = one.cause) {
    if (one instanceof SyntaxError || one instanceof TypeError || one instanceof RangeError || one instanceof ZodError) return true;
    if (one.message.includes('malformed JSON') || ('code' in one && /^22/.test(String(one.code)))) return true;
  }
  return false;
}
