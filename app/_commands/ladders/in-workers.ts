import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Policy } from '@/lib/limits/policy';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { Done, Job } from './analyse-jobs';
import type { LaddersIndex } from './ladders-by-patient';

/** What a worker is told once: the file and its index, the texts of the other files, the policy, the day. */
export type WorkersTask = {
  readonly file: string;
  readonly index: LaddersIndex;
  readonly pieces: string | undefined;
  readonly phases: string | undefined;
  readonly policy: Policy;
  readonly today: CalendarDay;
};

/** Jobs that each worker may have before it: one it does, one that waits. */
const AHEAD = 2;

/** Processes that do jobs of one task; `end` lets go of them. */
export type Workers = { readonly done: (jobs: Iterable<Job>) => AsyncGenerator<Done>; readonly end: () => void };

/**
 * Starts so many. Jobs are handed out in turn and their results come in the order of the jobs, so that what is written
 * hangs on neither the number of workers nor their speed; no more jobs are under way than two a worker.
 */
export function startWorkers(count: number, task: WorkersTask): Workers {
  const workers = Array.from({ length: count }, () => startWorker(task));
  async function* done(jobs: Iterable<Job>): AsyncGenerator<Done> {
    const waiting: Promise<Done>[] = [];
    let next = 0;
    for (const job of jobs) {
      const worker = workers[next % count] as Worker;
      next += 1;
      waiting.push(worker.ask(job));
      if (waiting.length >= count * AHEAD) yield await (waiting.shift() as Promise<Done>);
    }
    for (const one of waiting) yield await one;
  }
  const end = () => {
    for (const worker of workers) worker.end();
  };
  return { done, end };
}

type Worker = { readonly ask: (job: Job) => Promise<Done>; readonly end: () => void };

/** A process of its own, because a thread of Node 20 does not read TypeScript. */
function startWorker(task: WorkersTask): Worker {
  const file = fileURLToPath(new URL('./analyse-worker.ts', import.meta.url));
  const child = fork(file, { execArgv: ['--import', 'tsx'], serialization: 'advanced' });
  const asked: { readonly give: (done: Done) => void; readonly fail: (error: Error) => void }[] = [];
  let broken: Error | undefined;
  const fail = (error: Error) => {
    broken = error;
    for (const one of asked.splice(0)) one.fail(error);
  };
  child.on('message', (done: Done) => asked.shift()?.give(done));
  child.on('error', fail);
  child.on('exit', (code) => fail(new Error(`A worker ended with ${code} before its work was done.`)));
  child.send(task);
  const ask = (job: Job) =>
    new Promise<Done>((give, refuse) => {
      if (broken) return refuse(broken);
      asked.push({ give, fail: refuse });
      child.send(job);
    });
  return { ask, end: () => child.kill() };
}
