import { connection } from 'next/server';
import { getDatabase } from '@/db/client';
import { DatabaseRefused } from '@/db/database-refused';

/** Answers 200 when the database can be used, else 503 with nothing that a stranger could learn from. */
export async function GET(): Promise<Response> {
  await connection();
  try {
    await getDatabase();
    return Response.json({ database: 'ok' });
  } catch (error) {
    if (!(error instanceof DatabaseRefused)) throw error;
    return Response.json({ database: 'refused' }, { status: 503 });
  }
}
