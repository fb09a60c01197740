import fs from 'node:fs';
import path from 'node:path';
import { hashPassword } from 'better-auth/crypto';
import { todayIn } from '@/app/_auth/today';
import { demoClinic, HARBOUR_LANE } from '@/app/_commands/demonstration/demo-clinic';
import { seedPatient } from '@/app/_commands/demonstration/seed-patient';
import { closeDatabase } from '@/db/client';
import { changeClinicDetails } from '@/db/clinic/clinic-details';
import { addPatient } from '@/db/patients/patients';
import { saveVisit } from '@/db/patients/visits';
import { addPerson, openClinic, soleClinic } from '@/db/people/people';
import { databaseAddress } from '@/db/sql/database';
import { therapistWithId } from '@/db/therapist';
import { refreshStale } from '@/db/worklist/refresh-work';
import { bulkClinic } from '@/tests/bulk-clinic';
import { details, visitOn } from '@/tests/db/made-up-records';
import { PASSWORD, PEOPLE } from './people';

/** Made-up people of the demonstration who come along, under these names, so that screens have stories to show. */
const STORIES = [
  ...['Lia Fontane', 'Bram Oster', 'Ana Brisk', 'Rui Castellan', 'Tess Ibarra'],
  ...['Wanda Pryor', 'Rhoda Amsel', 'Grete Holloway', 'Hetty Vance'],
];

/** Makes the database of the browser tests anew: one clinic, four people, two patients and a few stories. */
async function seed(): Promise<void> {
  for (const end of ['', '-wal', '-shm', '.audit-head']) fs.rmSync(databaseAddress() + end, { force: true });
  fs.mkdirSync(path.dirname(databaseAddress()), { recursive: true });
  const passwordHash = await hashPassword(PASSWORD);
  const clinic = { name: 'Harbour Lane', subtitle: 'garment clinic', lengthUnit: 'in', massUnit: 'lb', timeZone: 'Europe/London' } as const;
  const lead = await openClinic(clinic, { ...PEOPLE.lead, passwordHash });
  const { id: clinicId } = (await soleClinic()) ?? { id: '' };
  await addPerson(clinicId, { ...PEOPLE.reader, passwordHash });
  await addPerson(clinicId, { ...PEOPLE.guessed, passwordHash });
  await addPerson(clinicId, { ...PEOPLE.second, passwordHash });
  const therapist = lead.kind === 'added' ? await therapistWithId(lead.id) : undefined;
  if (!therapist) throw new Error('the lead was not added');
  await changeClinicDetails(therapist, { details: { ...clinic, ...HARBOUR_LANE }, reason: 'set up' });
  await addPatient(therapist, { submissionId: 'seed 1', details: details('HL-0098', 'Joss Tamblyn') });
  const mira = await addPatient(therapist, { submissionId: 'seed 2', details: details('HL-0147', 'Mira Oduya') });
  if (mira.kind !== 'saved') throw new Error(mira.kind);
  await saveVisit(therapist, { patientId: mira.patientId, submissionId: 'seed 3', visit: { ...visitOn('2026-10-14'), measures: null } });
  const { patients } = demoClinic(todayIn(clinic.timeZone));
  for (const one of patients.filter(({ details }) => STORIES.includes(details.name))) await seedPatient(therapist, one);
  await refreshStale(therapist, todayIn(clinic.timeZone));
  const elsewhere = { ...clinic, name: 'Hill Street', timeZone: zoneAtNoon(new Date().getUTCHours()) };
  const other = await openClinic(elsewhere, { ...PEOPLE.crowded, passwordHash });
  const crowded = other.kind === 'added' ? await therapistWithId(other.id) : undefined;
  if (crowded) await bulkClinic(crowded, 10_000, todayIn(elsewhere.timeZone));
}

/** A zone where it is noon or just after: lines stored as of today there are not looked at anew while the tests run, as they would be from midnight on. */
function zoneAtNoon(utcHour: number): string {
  const ahead = 12 - utcHour;
  return ahead === 0 ? 'UTC' : `Etc/GMT${ahead > 0 ? '-' : '+'}${Math.abs(ahead)}`;
}

await seed();
await closeDatabase();
