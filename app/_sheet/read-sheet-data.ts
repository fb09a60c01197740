import 'server-only';
import { timeIn } from '@/app/_auth/today';
import type { Draft } from '@/db/patients/drafts';
import type { KeptRecord } from '@/db/patients/records';
import { recordBodyDoubts, withoutBodyInDoubt } from '@/lib/doubts/record-body-doubts';
import { type DraftContent, type Known, limbKey, type MetDraft } from '@/lib/entry/entry-data';
import { knownMeasures } from '@/lib/entry/measure-questions';
import { bodyAt } from '@/lib/growth/body-at';
import { expectedBody, lastBody } from '@/lib/growth/expected-body';
import type { LastLadder } from '@/lib/growth/expected-ladder';
import type { LimbKind } from '@/lib/ladder/limb';
import type { Policy } from '@/lib/limits/policy';
import { tapeSds } from '@/lib/limits/tape-sds';
import type { ClinicDetails } from '@/lib/record/clinic-details';
import { isAffected, type Visit } from '@/lib/record/patient-record';
import { lastLadder } from '@/lib/trend/last-ladder';
import { isGrowing, limbSeries } from '@/lib/trend/limb-series';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { carriedSheets } from '@/lib/visit-form/form-of-visit';
import { partsOf } from '@/lib/visit-form/read-measures';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { visitFormSchema } from '@/lib/visit-form/visit-form-schema';

/** What a sheet of a visit on a day is compared with: each limb's newest ladder of the record, the body near the day, the limbs treated. */
export function whatIsKnown(record: KeptRecord, policy: Policy, day: CalendarDay, today: CalendarDay): Known {
  const last: Record<string, LastLadder> = {};
  const affected: string[] = [];
  for (const series of limbSeries(record, policy)) {
    const swollen = isAffected(record, series.limb, series.side);
    const newest = lastLadder(series.visits, swollen, tapeSds(policy));
    if (newest) last[limbKey(series.limb, series.side)] = newest;
  }
  for (const { limb, side } of record.affected) if (isAffected(record, limb, side)) affected.push(limbKey(limb, side));
  const bodyOnRecord = bodyAt(record.visits, day, isGrowing(record, day, policy));
  const before = record.visits.filter((visit) => visit.day <= day);
  const open = recordBodyDoubts({ ...record, visits: before }, policy);
  const trusted = lastBody(before, (visit, measure) => open.get(visit)?.some(({ kind }) => kind === measure) ?? false);
  return {
    last,
    affected,
    bodyOnRecord,
    tape: tapeSds(policy),
    today,
    born: record.born,
    phases: record.phases,
    expectedBody: expectedBody(record, trusted, day, policy),
    bodyLimits: { bodySlipSds: policy.bodySlipSds, bodyAloneSds: policy.bodyAloneSds },
    otherVisits: othersOf(record.visits),
    measures: knownMeasures(withoutBodyInDoubt({ ...record, visits: before }, policy), policy),
    colleagues: record.colleagues,
    measurers: [...new Set(record.visits.flatMap(({ measurer }) => measurer ?? []))],
  };
}

function othersOf(visits: readonly Visit[]): Known['otherVisits'] {
  return visits.map(({ day, time, ladders }) => ({ day, time, limbs: ladders.map(({ limb, side }) => limbKey(limb, side)) }));
}

/** What the sheet of a stored visit is compared with: the record as it was before it. A visit that is not there is compared with all. */
export function knownBefore(record: KeptRecord, visitId: string, policy: Policy, today: CalendarDay): Known {
  const index = record.visits.findIndex((visit) => visit.visitId === visitId);
  const visits = index < 0 ? record.visits : record.visits.slice(0, index);
  const others = othersOf(record.visits.filter((visit) => visit.visitId !== visitId));
  return { ...whatIsKnown({ ...record, visits }, policy, record.visits[index]?.day ?? today, today), otherVisits: others };
}

/** The limb that a first visit begins with: the first affected one. */
export function treatedLimb(record: Pick<KeptRecord, 'affected'>): LimbKind {
  return record.affected[0]?.limb ?? 'leg';
}

/** The form a new visit starts from: the last visit's set-up, else the clinic's own, else a zero and an interval that are asked for; and nothing measured. */
export function firstForm(
  record: KeptRecord,
  clinic: ClinicDetails,
  now: { readonly day: CalendarDay; readonly time: string; readonly who: string },
): VisitForm {
  const before = [...record.visits].reverse().find((visit) => visit.ladders.length > 0);
  const last = record.visits.at(-1);
  const parts = last ? partsOf(last.measures ?? []) : (record.affectedParts ?? []);
  const treated = treatedLimb(record);
  return {
    day: now.day,
    time: now.time,
    posture: before?.posture ?? clinic.posture ?? '',
    measurer: now.who,
    height: '',
    heightUnit: before?.height?.unit ?? clinic.lengthUnit,
    weight: '',
    massUnit: before?.weight?.unit ?? clinic.massUnit,
    note: '',
    sheets: before
      ? carriedSheets(before.ladders)
      : [{ ...firstSheet(treated, clinic.lengthUnit), ...(clinic.setUp?.[treated] ?? { zero: '', interval: '' }) }],
    ...(parts.length > 0 ? { parts } : {}),
    readings: (before?.readings ?? []).map(({ name, length }) => ({ name, text: '', unit: length.unit })),
  };
}

/** A draft from the database as the sheet meets it; one that no longer has the right shape is as good as none. */
export function metDraft(draft: Draft | undefined, timeZone: string): MetDraft | undefined {
  if (!draft) return undefined;
  const content = draft.content as Partial<DraftContent> | null;
  const form = visitFormSchema.safeParse(content?.form);
  if (!form.success || typeof content?.submissionId !== 'string') return undefined;
  const base = typeof content.base === 'number' ? { base: content.base } : {};
  return {
    content: { form: form.data, submissionId: content.submissionId, ...base },
    version: draft.version,
    at: timeIn(timeZone, draft.updatedAt),
  };
}
