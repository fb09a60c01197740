import fs from 'node:fs';
import { saveVisit } from '@/db/patients/visits';
import { therapistWithId } from '@/db/therapist';
import { visitOn } from '@/tests/db/made-up-records';

/**
 * A process that saves visit after visit until it is killed, and acknowledges each on its output by the submission it came from.
 *
 * Waits for a line on its input before it opens the database, so that many can be made ready.
 */
async function write(therapistId: string, patientId: string): Promise<void> {
  fs.readSync(0, Buffer.alloc(1));
  const therapist = await therapistWithId(therapistId);
  if (!therapist) throw new Error('no therapist');
  for (;;) {
    const submissionId = crypto.randomUUID();
    const saved = await saveVisit(therapist, { patientId, submissionId, visit: visitOn('2026-10-14') });
    if (saved.kind === 'saved') fs.writeSync(1, `${submissionId}\n`);
  }
}

await write(process.argv[2] ?? '', process.argv[3] ?? '');
