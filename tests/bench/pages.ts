import { closeDatabase } from '@/db/client';
import { saveNoted } from '@/db/patients/noted';
import { calendarDay } from '@/lib/units/calendar-day';
import { type BuiltServer, isBuilt, signInAt, startBuilt } from '@/tests/built-server';
import { AIMS, besideAim } from './aims';
import { type FilledClinic, LEAD, LONG_RECORD, PASSWORD } from './filled-clinic';
import { peakMegabytes, processorMs } from './peak-memory';
import { median } from './timed';

const WARM = 30;

/** A signed-in page that reads the session and the clinic and shows a sentence: what any page of this server costs. */
const EMPTY = '/not-allowed';

/**
 * Pages of a built server over the clinic, against an empty page of the same server: medians of the answer time, one by one in turn, and the
 * server's own processor time over as many answers of each. The patient's page also cold: a patient nobody has read since the start.
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
      ['Worklist, first page', '/', AIMS.today],
      ['Worklist, orders only', '/?kind=order', AIMS.today],
      ['Search', '/patients?q=b-00077', undefined],
      [`Patient with ${LONG_RECORD} visits`, `/patients/${clinic.longRecordId}`, AIMS.patient],
    ] as const;
    for (const page of pages) await compare(server, cookie, page, times, clinic.patientIds.length);
    await readCold(server, cookie, clinic.patientIds.slice(0, times));
    await compareService(server, cookie, clinic, times);
    console.log(`  the server held ${peakMegabytes(server.pid)} MB at most`);
  } finally {
    await server.end('SIGTERM');
  }
}

type Page = readonly [what: string, address: string, aim: number | undefined];

async function compare(server: BuiltServer, cookie: string, [what, page, aim]: Page, times: number, size: number): Promise<void> {
  const { address } = server;
  const empty: number[] = [];
  const whole: number[] = [];
  for (let turn = 0; turn < WARM + times; turn++) {
    const floor = await timedGet(address + EMPTY, cookie);
    const seen = await timedGet(address + page, cookie);
    if (turn < WARM) continue;
    empty.push(floor);
    whole.push(seen);
  }
  const ratio = besideAim(`${what}, answer time`, median(whole) / median(empty), aim);
  const times2 = `${median(whole).toFixed(1)} ms against ${median(empty).toFixed(1)} ms`;
  console.log(`${what} (${size} patients): ${times2} for an empty page of the same server: ${ratio}`);
  const ofEmpty = await processorTime(server, cookie, EMPTY, times);
  const ofPage = await processorTime(server, cookie, page, times);
  const busy = besideAim(`${what}, processor time`, ofPage / ofEmpty, aim);
  console.log(`  processor time: ${ofPage.toFixed(1)} ms against ${ofEmpty.toFixed(1)} ms an answer: ${busy}`);
}

/** The page of service figures, with nothing written since and each time after a write, against the first page of Today. */
async function compareService({ address }: BuiltServer, cookie: string, { lead, patientIds }: FilledClinic, times: number): Promise<void> {
  const [service, today, after]: [number[], number[], number[]] = [[], [], []];
  for (let turn = 0; turn < times; turn++) {
    today.push(await timedGet(`${address}/`, cookie));
    service.push(await timedGet(`${address}/clinic/service`, cookie));
    await bookMissed(lead, patientIds[turn] ?? '');
    after.push(await timedGet(`${address}/clinic/service`, cookie));
  }
  await closeDatabase();
  const ratio = besideAim('Service figures', median(service) / median(today), AIMS.service);
  console.log(`Service figures: ${median(service).toFixed(1)} ms against ${median(today).toFixed(1)} ms for Today: ${ratio}`);
  const written = besideAim('Service figures after a write', median(after) / median(today), AIMS.service);
  console.log(`  each time after a write that nobody has counted yet: ${median(after).toFixed(1)} ms: ${written}`);
}

/** A booked visit that was missed is noted, and left to the page to be counted. */
async function bookMissed(lead: FilledClinic['lead'], patientId: string): Promise<void> {
  const day = calendarDay('2026-01-05');
  const content = { day, time: null, what: null, state: 'missed' } as const;
  const entry = { kind: 'booking', thing: crypto.randomUUID(), expected: 0, day, content, deed: 'visit booked', reason: null } as const;
  const saved = await saveNoted(lead, patientId, { ...entry, submissionId: crypto.randomUUID() });
  if (saved.kind !== 'saved') throw new Error(`not saved: ${saved.kind}`);
}

/** Processor time of the server an answer, ms. */
async function processorTime({ address, pid }: BuiltServer, cookie: string, page: string, times: number): Promise<number> {
  const before = processorMs(pid);
  for (let turn = 0; turn < times; turn++) await timedGet(address + page, cookie);
  return (processorMs(pid) - before) / times;
}

/** Pages of patients that the server has not read before, each once, against as many empty ones. */
async function readCold(server: BuiltServer, cookie: string, patientIds: readonly string[]): Promise<void> {
  const timesOf = async (pages: readonly string[]) => {
    const before = processorMs(server.pid);
    const times: number[] = [];
    for (const page of pages) times.push(await timedGet(server.address + page, cookie));
    return { answer: median(times), busy: (processorMs(server.pid) - before) / pages.length };
  };
  const empty = await timesOf(patientIds.map(() => EMPTY));
  const cold = await timesOf(patientIds.map((patientId) => `/patients/${patientId}`));
  const ratio = besideAim('Patients read for the first time, answer time', cold.answer / empty.answer, AIMS.patient);
  console.log(`Patients read for the first time: ${cold.answer.toFixed(1)} ms against ${empty.answer.toFixed(1)} ms: ${ratio}`);
  const busy = besideAim('Patients read for the first time, processor time', cold.busy / empty.busy, AIMS.patient);
  console.log(`  processor time: ${cold.busy.toFixed(1)} ms against ${empty.busy.toFixed(1)} ms an answer: ${busy}`);
}

async function timedGet(url: string, cookie: string): Promise<number> {
  const start = process.hrtime.bigint();
  const answer = await fetch(url, { headers: { cookie }, redirect: 'manual' });
  await answer.text();
  if (answer.status !== 200) throw new Error(`${url} answered ${answer.status}`);
  return Number(process.hrtime.bigint() - start) / 1e6;
}
