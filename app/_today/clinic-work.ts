import 'server-only';
import { findPatients } from '@/db/find-patients';
import type { PatientHead } from '@/db/patients';
import { policyOf } from '@/db/policy';
import { answersOf, asKnown } from '@/db/prompt-answers';
import { recordsOf } from '@/db/records';
import type { Therapist } from '@/db/therapist';
import { patientWork } from '@/lib/schedule/patient-work';
import type { WorkItem } from '@/lib/schedule/worklist';
import { heightOnLimb } from '@/lib/trend/limb-series';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** A small outline's figures for a list row. */
export type RowOutline = { readonly side: 'left' | 'right'; readonly heightsMm: readonly number[]; readonly girthsMm: readonly number[] };

/** One line of the clinic's worklist. */
export type ClinicWork = {
  readonly patient: PatientHead;
  readonly item: WorkItem;
  readonly outline: RowOutline | null;
  /** How many more lines of the same patient stand behind this one. */
  readonly behind: number;
};

/** Patients looked at on this screen; the count of all stands beside it. */
export const MOST_PATIENTS = 200;

/** The work of a clinic, by due day: every patient's open prompts and next visits. */
export async function clinicWork(
  therapist: Therapist,
  today: CalendarDay,
  search: string,
): Promise<{ work: ClinicWork[]; patients: number; looked: number }> {
  const found = await findPatients(therapist, search, 1, MOST_PATIENTS);
  const ids = found.rows.map((row) => row.patientId);
  const [records, answers, policy] = await Promise.all([recordsOf(therapist, ids), answersOf(therapist, ids), policyOf(therapist)]);
  const work = records.flatMap((record) => {
    const known = answers.filter((answer) => answer.patientId === record.head.patientId).map(asKnown);
    const { analysis, items } = patientWork(record, { answers: known, moves: [] }, policy, today);
    return items.map((item): ClinicWork => {
      const limb =
        analysis.limbs.find((one) =>
          item.limb ? one.series.limb === item.limb.limb && one.series.side === item.limb.side : one.affected,
        ) ?? analysis.limbs[0];
      const newest = limb?.series.visits.at(-1);
      const outline =
        limb && newest
          ? {
              side: limb.series.side,
              heightsMm: newest.placed.line.placesMm.map((place) => heightOnLimb(newest, place)),
              girthsMm: newest.placed.line.girthsMm,
            }
          : null;
      return { patient: record.head, item, outline, behind: 0 };
    });
  });
  work.sort(referFirst);
  return { work, patients: found.total, looked: records.length };
}

/** One line a patient, the most pressing (a referral before all, then the earliest day), with the count of what stands behind it. */
export function onePerPatient(work: readonly ClinicWork[]): ClinicWork[] {
  const lines = new Map<string, ClinicWork>();
  for (const one of work) {
    const standing = lines.get(one.patient.patientId);
    if (!standing) lines.set(one.patient.patientId, one);
    else if (one.item.kind === 'refer' && standing.item.kind !== 'refer')
      lines.set(one.patient.patientId, { ...one, behind: standing.behind + 1 });
    else lines.set(one.patient.patientId, { ...standing, behind: standing.behind + 1 });
  }
  return [...lines.values()].sort(referFirst);
}

/** Referrals first, then by day. */
function referFirst(one: ClinicWork, other: ClinicWork): number {
  return Number(other.item.kind === 'refer') - Number(one.item.kind === 'refer') || one.item.due.localeCompare(other.item.due);
}
