import 'server-only';
import { headers } from 'next/headers';

/** The address people type: APP_URL, or the host this request was sent to. */
export async function appAddress(): Promise<string> {
  return process.env.APP_URL || `http://${(await headers()).get('host') ?? 'localhost'}`;
}
