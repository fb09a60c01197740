import fs from 'node:fs';
import path from 'node:path';
import { todayIn } from '@/app/_auth/today';
import { personWithEmail } from '@/app/_commands/person-with-email';
import { readArguments } from '@/app/_commands/read-arguments';
import { runCommand, say } from '@/app/_commands/run-command';
import { counted } from '@/app/_exchange/counted';
import { partsOf, randomRank } from '@/app/_exchange/set-parts';
import { SET_STYLES, setStyleNamed } from '@/app/_exchange/set-style';
import { setWorkbook, WORKBOOK_STYLE } from '@/app/_exchange/set-workbook';
import { noteExport } from '@/db/clinic/audit-exports';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { everyPatientFile, type OutgoingPatient, patientFiles } from '@/db/exchange/patient-files';
import { findPatients } from '@/db/patients/find-patients';
import { privateFolder } from '@/db/sql/private-files';
import type { Therapist } from '@/db/therapist';
import { transactionBundle } from '@/lib/exchange/fhir/transaction-bundle';
import { bundleText, patientBundle } from '@/lib/exchange/fhir/write-bundle';
import { DICTIONARY_FILE, dataDictionary, fileNameOf } from '@/lib/exchange/set/data-dictionary';
import { setCounter } from '@/lib/exchange/set/set-tally';
import { headerLine, linesOf, SET_TABLES } from '@/lib/exchange/set/write-set';

const USAGE = `npm run export -- --by you@clinic.example --to folder [--as raw|sheets|research|workbook|fhir|fhir-transaction] [--patient HL-0147]
  Without --patient the whole clinic goes out. The folder must be new or empty.`;

const { values } = readArguments(USAGE, {
  by: { type: 'string' },
  to: { type: 'string' },
  as: { type: 'string', default: 'raw' },
  patient: { type: 'string' },
});

/** Writes a patient or the clinic into a folder: a set of tables with its dictionary, or a FHIR bundle for each patient. */
async function exportFiles(): Promise<string | undefined> {
  const { by, to, as, patient } = values;
  const style = setStyleNamed(as);
  if (!by || !to || (!style && as !== 'fhir' && as !== 'fhir-transaction' && as !== 'workbook')) return USAGE;
  const therapist = await personWithEmail(by);
  if (!therapist) return `Nobody here has the e-mail ${by}.`;
  if (!patient && therapist.role !== 'lead') return `${by} is not a lead of this clinic. Only a lead takes the whole clinic out.`;
  if (fs.existsSync(to) && fs.readdirSync(to).length > 0) return `${to} is not empty. Nothing was written.`;
  const patientId = patient ? await idOf(therapist, patient) : null;
  if (patientId === undefined) return `The clinic has no patient with the reference ${patient}.`;
  privateFolder(to);
  await noteExport(therapist, patientId, as);
  const rank = style && SET_STYLES[style].style.research ? randomRank() : undefined;
  const unread: string[] = [];
  const patients = patientId
    ? await patientFiles(therapist, [patientId])
    : everyPatientFile(therapist, { rank, unreadable: (reference) => unread.push(reference) });
  const write = async () => {
    if (style) return writeTables(therapist, to, style, patients);
    return as === 'workbook' ? writeWorkbook(therapist, to, patients) : writeBundles(therapist, to, patients, as === 'fhir-transaction');
  };
  const count = await write();
  if (typeof count === 'string') return count;
  say(`${counted(count, 'patient')} written to ${to}.`);
  if (unread.length > 0)
    return `Not written, because a row of theirs cannot be read (npm run verify-data says which): ${unread.join(', ')}.`;
  return undefined;
}

type Patients = Iterable<OutgoingPatient> | AsyncIterable<OutgoingPatient>;

/** One pass over the patients, every table open at once: memory holds one page of patients however large the clinic is. */
async function writeTables(therapist: Therapist, to: string, name: keyof typeof SET_STYLES, patients: Patients): Promise<number> {
  const { style } = SET_STYLES[name];
  const today = todayIn((await clinicOf(therapist)).timeZone);
  const partOf = partsOf(style, await policyOf(therapist), today);
  const counter = setCounter();
  const files = SET_TABLES.map((table) => ({ table, handle: fs.openSync(path.join(to, fileNameOf(table)), 'wx', 0o600) }));
  for (const { table, handle } of files) fs.writeSync(handle, headerLine(table, style));
  let count = 0;
  for await (const patient of patients) {
    const part = partOf(patient);
    for (const { table, handle } of files) fs.writeSync(handle, counter.noted(table, part, linesOf(table, part, style)));
    count += 1;
  }
  for (const { handle } of files) fs.closeSync(handle);
  fs.writeFileSync(path.join(to, DICTIONARY_FILE), `${JSON.stringify(dataDictionary(style, today, counter.tally()), null, 2)}\n`, {
    mode: 0o600,
  });
  return count;
}

/** Every patient in one workbook; how many they are, or why it cannot be one. */
async function writeWorkbook(therapist: Therapist, to: string, patients: Patients): Promise<number | string> {
  const today = todayIn((await clinicOf(therapist)).timeZone);
  let count = 0;
  const counting = async function* () {
    for await (const patient of patients) {
      count += 1;
      yield patient;
    }
  };
  const made = await setWorkbook(counting(), partsOf(WORKBOOK_STYLE, await policyOf(therapist), today), today);
  if (made.kind === 'refused') return made.reason;
  fs.writeFileSync(path.join(to, `clinic-${today}.xlsx`), made.bytes, { flag: 'wx', mode: 0o600 });
  return count;
}

async function writeBundles(therapist: Therapist, to: string, patients: Patients, forServer: boolean): Promise<number> {
  const clinic = await clinicOf(therapist);
  const today = todayIn(clinic.timeZone);
  const partOf = partsOf(SET_STYLES.raw.style, await policyOf(therapist), today);
  let count = 0;
  for await (const patient of patients) {
    const { file, analysis } = partOf(patient);
    const bundle = patientBundle(file, analysis(), new Date().toISOString(), { patientId: patient.patientId, clinic });
    const name = `${file.details.reference.replace(/[^\w.-]+/g, '-')}.fhir.json`;
    fs.writeFileSync(path.join(to, name), bundleText(forServer ? transactionBundle(bundle) : bundle), {
      flag: 'wx',
      mode: 0o600,
    });
    count += 1;
  }
  return count;
}

async function idOf(therapist: Therapist, reference: string): Promise<string | undefined> {
  const { rows } = await findPatients(therapist, reference);
  return rows.find((one) => one.reference.toLowerCase() === reference.toLowerCase())?.patientId;
}

await runCommand(exportFiles);
