import { phaseRows } from '@/lib/exchange/read-phases-csv';
import { pieceRows } from '@/lib/exchange/read-pieces-csv';
import { doJob, type Job } from './analyse-jobs';
import { type GivenRecords, rowsByPatient } from './analyse-records';
import type { WorkersTask } from './in-workers';
import { laddersAt } from './ladders-by-patient';

/** One of the processes of `analyse --workers`: told the files first, then a job at a time. Whoever started it ends it. */
process.once('message', ({ file, index, pieces, phases, policy, today }: WorkersTask) => {
  const records: GivenRecords = {
    ladders: laddersAt(file, index),
    pieces: rowsByPatient(pieces === undefined ? [] : pieceRows(pieces)),
    phases: rowsByPatient(phases === undefined ? [] : phaseRows(phases)),
  };
  process.on('message', (job: Job) => process.send?.(doJob(records, policy, today, job)));
});
process.once('disconnect', () => process.exit());
