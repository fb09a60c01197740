import type { ErrorScale } from '@/lib/course-model/error-scale';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import type { Policy } from '@/lib/limits/policy';
import type { CalendarDay } from '@/lib/units/calendar-day';

const NOBODY = '"patients": []';

/** One patient's part of the document as text. */
export function patientText(patient: unknown): string {
  return JSON.stringify(patient, null, 2).replaceAll('\n', '\n    ');
}

/** Writes the document of an analysis from the texts of its patients as they come, to the same bytes as if it were written whole. */
export async function writeDocument(
  patients: AsyncIterable<string> | Iterable<string>,
  policy: Policy,
  today: CalendarDay,
  scale: ErrorScale,
  write: (text: string) => void,
): Promise<void> {
  const whole = JSON.stringify(analysisDocument([], policy, today, scale), null, 2);
  const at = whole.indexOf(NOBODY);
  write(whole.slice(0, at));
  let before = '"patients": [\n    ';
  for await (const patient of patients) {
    write(before + patient);
    before = ',\n    ';
  }
  write(before.startsWith(',') ? `\n  ]${whole.slice(at + NOBODY.length)}\n` : `${whole.slice(at)}\n`);
}
