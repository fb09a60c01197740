import { limbStrains } from '@/lib/analysis/record-error-scale';
import type { ErrorScale, Strain } from '@/lib/course-model/error-scale';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import type { Policy } from '@/lib/limits/policy';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { type Faults, firstOfBoth, type GivenRecords, recordsOf } from './analyse-records';
import { patientText } from './write-document';

/** A piece of the work on some patients: what is wrong with them and what they say of the errors, that alone, or their part of the document. */
export type Job = { readonly references: readonly string[] } & (
  | { readonly kind: 'look'; readonly variance: number | null }
  | { readonly kind: 'strains'; readonly variance: number }
  | { readonly kind: 'write'; readonly scale: ErrorScale }
);

/** What came of it; plain data, so that a worker can send it. */
export type Done = { readonly faults: Faults; readonly strains: readonly Strain[]; readonly texts: readonly string[] };

const NOTHING: Done = { faults: {}, strains: [], texts: [] };

/** Does a job: patients are read one at a time, and none is kept. `variance` null: nothing is to be learnt. */
export function doJob(records: GivenRecords, policy: Policy, today: CalendarDay, job: Job): Done {
  let { faults } = NOTHING;
  const strains: Strain[] = [];
  const texts: string[] = [];
  for (const one of recordsOf(records, job.references, today)) {
    faults = firstOfBoth(faults, one.faults);
    if (!one.record) continue;
    if (job.kind === 'write') texts.push(patientText(analysisDocument([one.record], policy, today, job.scale).patients[0]));
    else if (job.variance !== null)
      strains.push(...limbStrains(one.record, policy, job.variance).map(({ strain, degrees }) => ({ strain, degrees })));
  }
  return { faults, strains, texts };
}
