import type { ZodType } from 'zod';

/** Larger than any visit: a stranger may not make the server keep more. */
const MOST_BYTES = 300_000;

/** What a page posted as JSON, of a known shape; else the answer that refuses it: too large, or not that. */
export async function postedJson<T>(request: Request, shape: ZodType<T>): Promise<{ readonly read: T } | { readonly refused: Response }> {
  const text = await request.text();
  if (text.length > MOST_BYTES) return { refused: new Response(null, { status: 413 }) };
  const found = shape.safeParse(parsed(text));
  return found.success ? { read: found.data } : { refused: new Response(null, { status: 400 }) };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
