import { todayIn } from '@/app/_auth/today';
import { getDatabase } from '@/db/client';
import { clinicOf } from '@/db/clinic/clinic';
import { erasePatient } from '@/db/erasure/erase-patient';
import { type PlannedErasure, plannedErasures } from '@/db/erasure/planned-erasure';
import { wipeFreedSpace } from '@/db/erasure/wipe-freed-space';
import { personWithEmail } from './person-with-email';
import { readArguments } from './read-arguments';
import { runCommand, say } from './run-command';

const USAGE = `npm run erase-patient -- --reference HL-0147 --by lead@clinic.example --reason "asked for in writing" [--despite-retention] [--yes]
  Without --yes it only says what would go. The reason stays in the record: do not name the patient in it.`;

const { values } = readArguments(USAGE, {
  reference: { type: 'string' },
  by: { type: 'string' },
  reason: { type: 'string' },
  'despite-retention': { type: 'boolean', default: false },
  yes: { type: 'boolean', default: false },
});

/** Erases one patient on request of a lead, after the time the record has to be kept, or before it when told so. */
async function erase(): Promise<string | undefined> {
  const { reference, by, reason } = values;
  if (!reference || !by || !reason?.trim()) return USAGE;
  const lead = await personWithEmail(by);
  if (lead?.role !== 'lead') return `${by} is not a lead of this clinic. Only a lead erases a patient.`;
  const plans = await plannedErasures(lead, reference);
  if (plans.length === 0) return `The clinic has no patient with the reference ${reference}.`;
  const names = plans.flatMap((plan) => [plan.reference, ...(plan.name ? [plan.name] : [])]);
  if (names.some((name) => reason.toLowerCase().includes(name.toLowerCase()))) {
    return 'The reason names the patient. It stays in the record; say it without.';
  }
  const { timeZone } = await clinicOf(lead);
  const today = todayIn(timeZone);
  for (const plan of plans) tell(plan);
  const kept = plans.find((plan) => today < plan.retainedUntil);
  if (kept && !values['despite-retention']) {
    return `It has to be kept until ${kept.retainedUntil}. If the law where you are says otherwise, add --despite-retention and say why in --reason.`;
  }
  if (!values.yes) {
    say('Nothing was changed. Save the record first: on the patient’s page, “Take out”, or npm run export. Then add --yes.');
    return undefined;
  }
  for (const { patientId } of plans) {
    const erased = await erasePatient(lead, patientId, reason.trim());
    if (!erased) return 'The patient was not found any more. Nothing more was changed.';
    say(`Erased: ${erased.rows} rows. The detail of ${erased.blanked} deeds was blanked; the history still holds (npm run verify-data).`);
  }
  say(await wipeFreedSpace(await getDatabase(), names));
  say('Backups, and the copies made before migrations, still hold this patient until they are let go.');
  return undefined;
}

function tell({ reference, name, holds, lastVisit }: PlannedErasure): void {
  say(`${reference}${name ? `, ${name}` : ''}: ${holds.join(', ')}; ${lastVisit ? `last visit ${lastVisit}` : 'no visit'}.`);
}

await runCommand(erase);
