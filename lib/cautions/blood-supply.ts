import type { Policy } from '../limits/policy';
import { type CalendarDay, daysBetween, showDay } from '../units/calendar-day';

/** How the blood supply of a leg was looked at; it may be that it cannot be measured, and that is an answer. */
export const SUPPLY_CHECKS = ['index', 'toe pressure', 'clinical check', 'cannot be measured'] as const;
export type SupplyCheck = (typeof SUPPLY_CHECKS)[number];

/** What is known of one leg: the pressure planned, whether a risk factor is there, how it was checked, when and by whom. */
export type SupplyFinding = {
  readonly plannedMmHg?: number;
  readonly risk?: 'none' | 'some';
  readonly check?: SupplyCheck;
  readonly abpi?: number;
  readonly toeMmHg?: number;
  /** Pulses, refill, colour, warmth and feeling. */
  readonly clinical?: 'good' | 'poor';
  readonly day?: CalendarDay;
  readonly by?: string;
  /** Why there is no index, or for when it is booked. */
  readonly why?: string;
  /** Written advice of a vascular team or the prescriber: who and when. */
  readonly advice?: string;
};

/** What follows for the planned pressure. `advice` goes on with written advice; `incomplete` says what is not known yet. */
export type SupplyJudged = { readonly says: 'go' | 'advice' | 'stop' | 'incomplete'; readonly why: string };

const GO: SupplyJudged = { says: 'go', why: '' };

/**
 * Whether a leg's blood supply is confirmed for the pressure planned, by age and risk.
 *
 * | planned | clinical check alone | index 0.8–1.3 | 0.6–0.79 | under 0.6, over 1.3, unreadable |
 * | up to 20 mmHg | go; with a risk factor or over 65 the index is booked | go | written advice | stop |
 * | 21–40 mmHg | written advice | go | a vascular team writes | stop |
 *
 * Over 40 mmHg a vascular team decides. Below the clinic's age no index is asked for: a clinical check of each side does.
 * Shape: one leg's finding, age in years, the clinic's limits, the day. Source: the limits' own; the table is a clinic default made of them.
 * Example: 0.72 at 18 mmHg asks for written advice, 0.72 with it goes on, 0.55 never does.
 */
export function judgeSupply(finding: SupplyFinding, ageYears: number, policy: Policy, today: CalendarDay): SupplyJudged {
  const child = ageYears < policy.supplyIndexYears;
  const missing = whatIsMissing(finding, child, policy, today);
  if (missing) return { says: 'incomplete', why: missing };
  const found = { ...finding, plannedMmHg: finding.plannedMmHg ?? 0 };
  const risk = found.risk === 'some' || ageYears > policy.supplyRiskYears;
  const judged = found.clinical === 'poor' ? stop('The clinical check is not good.') : judgeCheck(found, child, risk, policy);
  if (judged.says === 'go' && !child && found.plannedMmHg > policy.strongPressureMmHg)
    return advised(found, `Above ${policy.strongPressureMmHg} mmHg a vascular team decides.`);
  return judged;
}

type Found = SupplyFinding & { readonly plannedMmHg: number };

function judgeCheck(found: Found, child: boolean, risk: boolean, policy: Policy): SupplyJudged {
  const { check, abpi = 0, toeMmHg = 0 } = found;
  if (check === 'index') return judgeIndex(found, abpi, policy);
  if (check === 'toe pressure') {
    if (toeMmHg < policy.toeStopMmHg) return stop(`A toe pressure of ${toeMmHg} mmHg is below ${policy.toeStopMmHg} mmHg.`);
    return toeMmHg < policy.toeLowMmHg ? advised(found, `A toe pressure of ${toeMmHg} mmHg is below ${policy.toeLowMmHg} mmHg.`) : GO;
  }
  if (found.clinical !== 'good')
    return { says: 'incomplete', why: 'Say what the clinical check found: pulses, refill, colour, warmth, feeling.' };
  if (child) return risk ? advised(found, 'A risk factor in a young person.') : GO;
  if (check === 'cannot be measured') return advised(found, `The supply cannot be measured: ${found.why ?? ''}`.trim());
  if (found.plannedMmHg > policy.lightPressureMmHg)
    return advised(found, `Above ${policy.lightPressureMmHg} mmHg an ankle–brachial index is needed, or written advice in its place.`);
  if (risk && !found.why)
    return { says: 'incomplete', why: 'With a risk factor or at this age an index is booked as well: say for when, or why not.' };
  return GO;
}

function judgeIndex(found: Found, abpi: number, policy: Policy): SupplyJudged {
  if (abpi < policy.abpiStop) return stop(`An index of ${abpi} is below ${policy.abpiStop}.`);
  if (abpi > policy.abpiHigh)
    return stop(`An index of ${abpi} is above ${policy.abpiHigh}: arteries may be too stiff to read. Take the toe pressure.`);
  if (abpi >= policy.abpiLow) return GO;
  const above = found.plannedMmHg > policy.lightPressureMmHg;
  return advised(
    found,
    `An index of ${abpi} is below ${policy.abpiLow}${above ? `, and more than ${policy.lightPressureMmHg} mmHg is planned` : ''}.`,
  );
}

function whatIsMissing(finding: SupplyFinding, child: boolean, policy: Policy, today: CalendarDay): string | undefined {
  const { check, day, by, abpi, toeMmHg, plannedMmHg, risk } = finding;
  if (!check) return 'No check of this leg is on record.';
  if (!child && plannedMmHg === undefined) return 'Say which pressure is planned for this leg.';
  if (!child && !risk) return 'Say whether one of the risk factors is there.';
  if (check === 'index' && abpi === undefined) return 'Type the index.';
  if (check === 'toe pressure' && toeMmHg === undefined) return 'Type the toe pressure.';
  if (check === 'cannot be measured' && !finding.why) return 'Say why it cannot be measured.';
  if (!day) return 'Type the day of the check.';
  if (!by) return 'Say who checked it.';
  const old = daysBetween(day, today);
  return old > policy.abpiDays ? `The check of ${showDay(day)} is ${old} days old, more than ${policy.abpiDays}.` : undefined;
}

function advised({ advice }: SupplyFinding, why: string): SupplyJudged {
  return advice ? GO : { says: 'advice', why: `${why} Written advice first: say whose, and of which day.` };
}

function stop(why: string): SupplyJudged {
  return { says: 'stop', why: `${why} Vascular advice first.` };
}
