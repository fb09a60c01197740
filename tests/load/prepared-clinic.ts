import { hashPassword } from 'better-auth/crypto';
import { todayIn } from '@/app/_auth/today';
import { whatIsKnown } from '@/app/_sheet/read-sheet-data';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { recordOf } from '@/db/patients/records';
import { addPerson } from '@/db/people/people';
import { questionKey } from '@/lib/entry/asked-by-server';
import { openQuestions } from '@/lib/entry/open-questions';
import { visitQuestionKey } from '@/lib/entry/visit-question';
import { visitQuestions } from '@/lib/entry/visit-questions';
import { formOfVisit } from '@/lib/visit-form/form-of-visit';
import { filledClinic, PASSWORD } from '@/tests/bench/filled-clinic';
import { visitOn } from '@/tests/db/made-up-records';

/** A clinic with many patients and therapists, and the visit that each of them saves, as the sheet sends it, with what it leaves open. */
export async function preparedClinic(therapists: number, patients: number) {
  const { lead, today, patientIds } = await filledClinic(patients, 0);
  const passwordHash = await hashPassword(PASSWORD);
  const emails = Array.from({ length: therapists }, (_, number) => `therapist-${number}@harbour.example`);
  for (const email of emails) await addPerson(lead.clinicId, { email, name: 'K. Doan', role: 'therapist', passwordHash });
  const clinic = await clinicOf(lead);
  const form = { ...formOfVisit(visitOn('2026-10-14'), clinic), occasion: 'second-measuring' as const };
  const withoutVisits = patientIds.slice(1);
  const record = await recordOf(lead, withoutVisits[0] ?? '');
  if (!record) throw new Error('the patient is not there');
  const known = whatIsKnown(record, await policyOf(lead), today, todayIn(clinic.timeZone));
  const leftOpen = [...openQuestions(form, known).map(questionKey), ...visitQuestions(form, known).map(visitQuestionKey)];
  return { emails, patientIds: withoutVisits, form, leftOpen };
}
