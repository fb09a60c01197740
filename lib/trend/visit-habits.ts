import type { Policy } from '../limits/policy';
import { isSameMeasurer } from '../record/measurer';
import type { LimbSeries, SeriesVisit } from './series-visit';

/** What of a visit's figures lasts beyond the day: a measurer's pull, a posture, an hour. */
export type VisitHabits = {
  /** Variance of each lasting habit (log girth). */
  readonly variances: readonly number[];
  /** By visit: variance of this day alone, and the numbers of the habits that are in its figures. */
  readonly visits: readonly { readonly dayVariance: number; readonly numbers: readonly number[] }[];
};

const FULL_HOURS = 24;

/**
 * The habits of a series: one a measurer (by identity where that is known, else by name), one a posture or hour that differs from the usual; what was met once counts for its day alone.
 *
 * Two measurers differ by √2 of the policy's tension of another measurer, one by √2 of that of the same: a habit has the variance between,
 * 1.0² − 0.4². A posture or hour other than the first one on record has the policy's posture SD. Who taped is unknown: a habit of the day.
 * What is not on record counts for the usual. Shape: a series, the policy. Source: clinic defaults of the policy; Deltombe 2007 (two measurers).
 * Example: three visits by RA and one by KD: no lasting habit counts but RA's, and KD's day is wider by 0.84e-4.
 */
export function visitHabits({ visits, limb }: LimbSeries, policy: Policy): VisitHabits {
  const pull = Math.max(policy.tensionOtherSd ** 2 - policy.tensionSameSd ** 2, 0);
  const posture = (limb === 'leg' ? policy.legPostureSd : policy.armPostureSd) ** 2;
  const people = visits.map(({ visit }) => (visit.measurer?.trim() ? visit : null));
  const named = groups(people, isSameMeasurer);
  const postures = groups(
    visits.map(({ visit }) => visit.posture?.trim().toLowerCase() || null),
    (one, other) => one === other,
  );
  const hours = limb === 'leg' ? groups(visits.map(hourOf), (one, other) => hoursBetween(one, other) <= policy.legHoursApart) : [];
  const numbers = visits.map(() => [] as number[]);
  const dayVariances = visits.map(() => 0);
  const variances: number[] = [];
  const count = (members: readonly number[], variance: number): void => {
    if (members.length === 1) {
      const [only] = members as [number];
      dayVariances[only] = (dayVariances[only] as number) + variance;
      return;
    }
    for (const visit of members) (numbers[visit] as number[]).push(variances.length);
    variances.push(variance);
  };
  const unknown = people.flatMap((one, visit) => (one === null ? [visit] : []));
  for (const visit of unknown) count([visit], pull);
  if (named.length + unknown.length > 1) for (const members of named) count(members, pull);
  for (const members of postures.slice(1)) count(members, posture);
  for (const members of hours.slice(1)) count(members, posture);
  return {
    variances,
    visits: visits.map((_, visit) => ({ dayVariance: dayVariances[visit] as number, numbers: numbers[visit] as number[] })),
  };
}

/** Nothing lasts: as if one hand had taped everything at one hour in one posture. */
export function noHabits({ visits }: LimbSeries): VisitHabits {
  return { variances: [], visits: visits.map(() => ({ dayVariance: 0, numbers: [] })) };
}

/** Visits by what they have in common, in order of first appearance; those with nothing on record are in none. */
function groups<T>(values: readonly (T | null)[], alike: (one: T, other: T) => boolean): number[][] {
  const found: { readonly first: T; readonly members: number[] }[] = [];
  values.forEach((value, visit) => {
    if (value === null) return;
    const known = found.find(({ first }) => alike(first, value));
    if (known) known.members.push(visit);
    else found.push({ first: value, members: [visit] });
  });
  return found.map(({ members }) => members);
}

function hourOf({ visit }: SeriesVisit): number | null {
  const parts = visit.time ? /^(\d{1,2}):(\d{2})$/.exec(visit.time) : null;
  return parts ? Number(parts[1]) + Number(parts[2]) / 60 : null;
}

/** Hours between two clock times, whatever the day. Example: 8.5 and 16 are 7.5 h apart. */
function hoursBetween(one: number, other: number): number {
  const apart = Math.abs(one - other);
  return Math.min(apart, FULL_HOURS - apart);
}
