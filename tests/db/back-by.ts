import { analysePatient } from '@/lib/analysis/analyse-patient';
import { readOurBundle } from '@/lib/exchange/fhir/read-bundle';
import { bundleText, patientBundle } from '@/lib/exchange/fhir/write-bundle';
import { DICTIONARY_FILE, dataDictionary, fileNameOf } from '@/lib/exchange/set/data-dictionary';
import { readSet } from '@/lib/exchange/set/read-set';
import { setCounter } from '@/lib/exchange/set/set-tally';
import { headerLine, linesOf, SET_TABLES } from '@/lib/exchange/set/write-set';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { type PatientFile, recordOfFile } from '@/lib/record/patient-file';
import { calendarDay } from '@/lib/units/calendar-day';

const TODAY = calendarDay('2026-11-25');
const analysis = (file: PatientFile) => () => analysePatient(recordOfFile(file), DEFAULT_POLICY, TODAY);

/** A patient written as the set of tables and read back. */
export function backBySet(file: PatientFile): PatientFile {
  const style = { research: false, defused: true };
  const counter = setCounter();
  const part = { subjectId: 'S1', file, analysis: analysis(file) };
  const tables = SET_TABLES.map(
    (table) => [fileNameOf(table), headerLine(table, style) + counter.noted(table, part, linesOf(table, part, style))] as const,
  );
  const set = readSet(new Map([...tables, [DICTIONARY_FILE, JSON.stringify(dataDictionary(style, TODAY, counter.tally()))]]));
  if (set.kind !== 'read') throw new Error(JSON.stringify(set));
  return set.patients[0] as PatientFile;
}

/** A patient written as a FHIR bundle and read back. */
export function backByBundle(file: PatientFile): PatientFile {
  const owner = { patientId: 'p', clinic: { id: 'c', name: 'Clinic', timeZone: 'Europe/London' } };
  const bundle = readOurBundle(JSON.parse(bundleText(patientBundle(file, analysis(file)(), '2026-11-25T12:00:00Z', owner))));
  if (bundle.kind !== 'read') throw new Error(JSON.stringify(bundle));
  return bundle.files[0] as PatientFile;
}
