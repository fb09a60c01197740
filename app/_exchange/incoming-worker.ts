import { parentPort, workerData } from 'node:worker_threads';
import { INCOMING_JOBS, type IncomingJobs } from './incoming-jobs';

/** Does one job of a thread of its own: each part is sent when it is asked for, so that the server takes over no more than it can at once. */
async function work<Job extends keyof IncomingJobs>({ job, given }: { readonly job: Job; readonly given: IncomingJobs[Job]['given'] }) {
  const parts = INCOMING_JOBS[job](given)[Symbol.asyncIterator]();
  parentPort?.on('message', async () => parentPort?.postMessage(await parts.next()));
}

void work(workerData);
