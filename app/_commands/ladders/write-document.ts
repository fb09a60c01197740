import type { ErrorScale } from '@/lib/course-model/error-scale';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import type { Policy } from '@/lib/limits/policy';
import type { PatientRecord } from '@/lib/record/patient-record';
import type { CalendarDay } from '@/lib/units/calendar-day';

const NOBODY = '"patients": []';

/** Writes the document of an analysis a patient at a time, to the same bytes as if it were written whole. */
export function writeDocument(
  records: Iterable<PatientRecord>,
  policy: Policy,
  today: CalendarDay,
  scale: ErrorScale,
  write: (text: string) => void,
): void {
  const whole = JSON.stringify(analysisDocument([], policy, today, scale), null, 2);
  const at = whole.indexOf(NOBODY);
  write(whole.slice(0, at));
  let before = '"patients": [\n    ';
  for (const record of records) {
    const [patient] = analysisDocument([record], policy, today, scale).patients;
    write(before + JSON.stringify(patient, null, 2).replaceAll('\n', '\n    '));
    before = ',\n    ';
  }
  write(before.startsWith(',') ? `\n  ]${whole.slice(at + NOBODY.length)}\n` : `${whole.slice(at)}\n`);
}
