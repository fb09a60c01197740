import { type BuiltServer, isBuilt, signInAt, startBuilt } from '@/tests/built-server';
import { type FilledClinic, LEAD, LONG_RECORD, PASSWORD } from './filled-clinic';
import { peakMegabytes } from './peak-memory';
import { median } from './timed';

const WARM = 30;

/** A signed-in page that reads the session and the clinic and shows a sentence: what any page of this server costs. */
const EMPTY = '/not-allowed';

/**
 * Pages of a built server over the clinic, against an empty page of the same server: medians, one by one in turn.
 *
 * Needs a production build in `.next`; without one it says so.
 */
export async function benchPages(clinic: FilledClinic, times: number): Promise<void> {
  if (!isBuilt()) return console.log('Pages: no production build stands in .next; run `npx next build` first.');
  const { DATABASE_URL = '', DB_FILE = '', AUDIT_KEY = '' } = process.env;
  const server = await startBuilt({ DATABASE_URL, DB_FILE, AUDIT_KEY, AUTH_SECRET: 'only for a bench, signs nothing real' });
  try {
    const cookie = await signInAt(server.address, LEAD.email, PASSWORD);
    const pages = [
      ['Worklist, first page', '/'],
      ['Worklist, orders only', '/?kind=order'],
      ['Search', '/patients?q=b-00077'],
      [`Patient with ${LONG_RECORD} visits`, `/patients/${clinic.longRecordId}`],
    ] as const;
    for (const [what, page] of pages) await compare(server, cookie, what, page, times, clinic.patientIds.length);
    console.log(`  the server held ${peakMegabytes(server.pid)} MB at most`);
  } finally {
    await server.end('SIGTERM');
  }
}

async function compare({ address }: BuiltServer, cookie: string, what: string, page: string, times: number, size: number): Promise<void> {
  const empty: number[] = [];
  const whole: number[] = [];
  for (let turn = 0; turn < WARM + times; turn++) {
    const floor = await timedGet(address + EMPTY, cookie);
    const seen = await timedGet(address + page, cookie);
    if (turn < WARM) continue;
    empty.push(floor);
    whole.push(seen);
  }
  const ratio = (median(whole) / median(empty)).toFixed(2);
  const times2 = `${median(whole).toFixed(1)} ms against ${median(empty).toFixed(1)} ms`;
  console.log(`${what} (${size} patients): ${times2} for an empty page of the same server: ${ratio} times`);
}

async function timedGet(url: string, cookie: string): Promise<number> {
  const start = process.hrtime.bigint();
  const answer = await fetch(url, { headers: { cookie }, redirect: 'manual' });
  await answer.text();
  if (answer.status !== 200) throw new Error(`${url} answered ${answer.status}`);
  return Number(process.hrtime.bigint() - start) / 1e6;
}
