import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { IncomingJobs } from './incoming-jobs';

/** Files that are worked on at once; another waits for its turn. */
const AT_ONCE = 2;
/** Memory of one of them, MB: a table of 100,000 rows takes about 300. */
const MOST_MB = 768;
/** A file that takes longer than this is given up, ms. Clinic default. */
const LONGEST_MS = 120_000;

/** Said of a file that took too much memory or time, or that broke its reader. */
export const TOO_MUCH = 'The file takes too much to be read. Nothing was taken. Split it by patients and bring the parts in one by one.';

let working = 0;
const waiting: (() => void)[] = [];

/**
 * The parts of a job on a file, made in a thread of its own: however the file is made, every other request is answered meanwhile.
 *
 * Throws when the file takes too much time or memory; whoever asked says so and keeps what there was.
 */
export async function* partsOf<Job extends keyof IncomingJobs>(
  job: Job,
  given: IncomingJobs[Job]['given'],
): AsyncGenerator<IncomingJobs[Job]['made']> {
  await turn();
  const worker = new Worker(new URL('./incoming-worker.ts', import.meta.url), {
    workerData: { job, given },
    resourceLimits: { maxOldGenerationSizeMb: MOST_MB },
  });
  const late = setTimeout(() => void worker.terminate(), LONGEST_MS);
  const failed = failureOf(worker);
  try {
    for (;;) {
      const next = once(worker, 'message') as Promise<[IteratorResult<IncomingJobs[Job]['made'], undefined>]>;
      worker.postMessage('next');
      const [{ done, value }] = await Promise.race([next, failed]);
      if (done) return;
      yield value;
    }
  } finally {
    clearTimeout(late);
    await worker.terminate();
    working -= 1;
    waiting.shift()?.();
  }
}

/** The one part of a job that comes whole. */
export async function besideTheServer<Job extends keyof IncomingJobs>(
  job: Job,
  given: IncomingJobs[Job]['given'],
): Promise<IncomingJobs[Job]['made']> {
  for await (const part of partsOf(job, given)) return part;
  throw new Error(`nothing came of ${job}`);
}

async function turn(): Promise<void> {
  while (working >= AT_ONCE) await new Promise<void>((free) => waiting.push(free));
  working += 1;
}

/** Rejects once a thread has failed or ended; nobody has to wait for it. */
function failureOf(worker: Worker): Promise<never> {
  const failed = new Promise<never>((_, reject) => {
    worker.once('error', reject);
    worker.once('exit', (code) => reject(new Error(`the thread that reads a file ended with ${code}`)));
  });
  failed.catch(() => undefined);
  return failed;
}
