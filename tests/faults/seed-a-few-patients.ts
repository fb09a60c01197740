import { hashPassword } from 'better-auth/crypto';
import { todayIn } from '@/app/_auth/today';
import { whatIsKnown } from '@/app/_sheet/read-sheet-data';
import { closeDatabase } from '@/db/client';
import { policyOf } from '@/db/clinic/policy';
import { addPatient } from '@/db/patients/patients';
import { recordOf } from '@/db/patients/records';
import { openClinic } from '@/db/people/people';
import { therapistWithId } from '@/db/therapist';
import { questionKey } from '@/lib/entry/asked-by-server';
import { openQuestions } from '@/lib/entry/open-questions';
import { formOfVisit } from '@/lib/visit-form/form-of-visit';
import { details, visitOn } from '@/tests/db/made-up-records';
import { PASSWORD, PEOPLE } from '@/tests/e2e/people';

const PATIENTS = 50;

/** A clinic with one person and a few patients; prints their ids, and the made-up visit as a sheet sends it, with what it leaves open. */
const clinic = { name: 'Harbour Lane', subtitle: 'garment clinic', lengthUnit: 'in', massUnit: 'lb', timeZone: 'Europe/London' } as const;
const opened = await openClinic(clinic, { ...PEOPLE.lead, passwordHash: await hashPassword(PASSWORD) });
const lead = await therapistWithId('id' in opened ? opened.id : '');
if (!lead) throw new Error('the lead was not added');
const patientIds: string[] = [];
for (let number = 0; number < PATIENTS; number++) {
  const added = await addPatient(lead, { submissionId: crypto.randomUUID(), details: details(`HL-${number}`) });
  if ('patientId' in added) patientIds.push(added.patientId);
}
const form = { ...formOfVisit(visitOn('2026-10-14'), clinic), occasion: 'second-measuring' as const };
const record = await recordOf(lead, patientIds[0] ?? '');
const today = todayIn(clinic.timeZone);
const leftOpen = record ? openQuestions(form, whatIsKnown(record, await policyOf(lead), today, today)).map(questionKey) : [];
process.stdout.write(JSON.stringify({ patientIds, form, leftOpen }));
await closeDatabase();
