import type { ReactNode } from 'react';
import type { KeptRecord } from '@/db/patients/records';
import { affectedInWords } from '@/lib/record/patient-record';
import { ageInYears, showAge } from '@/lib/units/age';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** Name, reference, age and the limbs treated: in view on every screen of a patient. `saying` adds what the screen is about. */
export function PatientTitle({
  record,
  today,
  saying,
  children,
}: {
  record: KeptRecord;
  today: CalendarDay;
  saying?: string;
  children?: ReactNode;
}) {
  const { head } = record;
  const limbs = affectedInWords(record) || 'no limb marked as affected';
  return (
    <div className="title-row patient-title">
      <div className="who">
        <h1>{head.name ?? head.reference}</h1>
        <p className="secondary">
          {`${head.name ? `${head.reference} · ` : ''}${personWord(record, today)}, ${showAge(record.born, today)}`}
          <br />
          {saying ?? `${head.diagnosisGroup}, ${limbs}`}
        </p>
      </div>
      <div className="actions">{children}</div>
    </div>
  );
}

function personWord(record: KeptRecord, today: CalendarDay): string {
  const child = ageInYears(record.born, today) < 18;
  if (record.sex === 'F') return child ? 'girl' : 'woman';
  if (record.sex === 'M') return child ? 'boy' : 'man';
  return child ? 'child' : 'adult';
}
