import { ColumnHeads } from '@/app/_shell/column-heads';
import type { PatientHead } from '@/db/patients/patients';
import { affectedInWords } from '@/lib/record/patient-record';
import { showAge } from '@/lib/units/age';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';

type PatientTableProps = {
  readonly patients: readonly PatientHead[];
  readonly lastVisits: ReadonlyMap<string, CalendarDay>;
  readonly today: CalendarDay;
};

/** Patients, one in a line: who, how old, which limbs, when last taped. */
export function PatientTable({ patients, lastVisits, today }: PatientTableProps) {
  return (
    <table className="worklist">
      <thead>
        <tr>
          <ColumnHeads of={['Patient', 'Age', 'Affected', 'Last visit']} />
        </tr>
      </thead>
      <tbody>
        {patients.map((patient) => {
          const last = lastVisits.get(patient.patientId);
          return (
            <tr key={patient.patientId}>
              <th scope="row">
                <a className="quiet-link" href={`/patients/${patient.patientId}`} data-soft="">
                  {patient.name ?? patient.reference}
                </a>
                <span className="second-line">
                  {patient.name && `${patient.reference} · `}
                  {patient.diagnosisGroup}
                </span>
              </th>
              <td>{showAge(patient.born, today)}</td>
              <td>{affectedInWords(patient)}</td>
              <td>{last ? showDay(last) : <span className="secondary">no visit yet</span>}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
