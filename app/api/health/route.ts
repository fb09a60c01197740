import { connection } from 'next/server';
import { getDatabase } from '@/db/client';
import { DatabaseRefused } from '@/db/sql/database-refused';
import { historyState } from '@/db/upkeep/history-state';

/** Answers 200 when the database can be used and its history reaches every head that is known outside, else 503 with nothing that a stranger could learn from. */
export async function GET(): Promise<Response> {
  await connection();
  try {
    await getDatabase();
    if ((await historyState()).length > 0)
      return Response.json({ database: 'ok', history: 'shorter or other than known' }, { status: 503 });
    return Response.json({ database: 'ok' });
  } catch (error) {
    if (!(error instanceof DatabaseRefused)) throw error;
    return Response.json({ database: 'refused' }, { status: 503 });
  }
}
