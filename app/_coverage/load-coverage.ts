import 'server-only';
import { coverageOf, coverageRulesOf } from '@/db/clinic/coverage';
import type { KeptOrder } from '@/db/patients/read-orders';
import type { KeptRecord } from '@/db/patients/records';
import type { Therapist } from '@/db/therapist';
import type { CoverageRule } from '@/lib/record/coverage';
import type { WornPlace } from '@/lib/record/patient-record';
import { coverageOfPatient, type LimbClock, type PatientCoverage } from '@/lib/schedule/coverage-of-patient';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** The clinic's rules, and where the clock of the patient's own stands; null while none is chosen. */
export async function loadCoverage(
  therapist: Therapist,
  record: KeptRecord,
  orders: readonly KeptOrder[],
  today: CalendarDay,
): Promise<{
  readonly rules: readonly CoverageRule[];
  readonly now: (PatientCoverage & { readonly clocks: readonly LimbClock[] }) | null;
}> {
  const rules = await coverageRulesOf(therapist);
  const kept = rules.length > 0 ? await coverageOf(therapist, record.head.patientId) : undefined;
  const rule = rules.find((one) => one.id === kept?.ruleId);
  if (!kept || !rule) return { rules, now: null };
  const reasonOf = new Map(orders.map((order) => [order.orderId, order.reasonCode]));
  const coverage = { rule, from: kept.from };
  return { rules, now: { ...coverage, clocks: coverageOfPatient(coverage, record.pieces, reasonOf, limbsOf(record), today) } };
}

/** Limbs that are affected or ever had a piece, each once. */
function limbsOf(record: KeptRecord): WornPlace[] {
  const all = [...record.affected, ...record.pieces.map(({ limb, side }) => ({ limb, side }))];
  return [...new Map(all.map((one) => [`${one.limb} ${one.side}`, one])).values()];
}
