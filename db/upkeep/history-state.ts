import { getDatabase } from '../client';
import type { Database } from '../sql/database';
import { databaseAddress } from '../sql/database';
import { historyDoubts } from './known-heads';

/** How long an answer holds: the page of a lead and the health address ask often. */
const HOLDS_MS = 30_000;

let answered: { readonly at: number; readonly of: Database; readonly doubts: Promise<readonly string[]> } | undefined;

/** What speaks for a loss of history, in a sentence each; asked anew at most twice a minute. */
export async function historyState(now = Date.now()): Promise<readonly string[]> {
  const of = await getDatabase();
  if (!answered || answered.of !== of || now - answered.at > HOLDS_MS)
    answered = { at: now, of, doubts: historyDoubts(of, databaseAddress()) };
  return answered.doubts;
}
