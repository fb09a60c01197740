import { capitalized } from '../units/capitalized';
import { LIMITS, type LimitName } from './limits';
import { DEFAULT_POLICY, type Policy } from './policy';

/** What a proposal or a date compares with: a limit, or the clinic's table of review intervals by age. */
export type ComparedWith = LimitName | 'reviewDays';

/** Why a clinic's patients are reviewed when they are, unless it decides otherwise. */
export const REVIEW_SOURCE = 'A children’s hospital reviews fit every 3 months; stable lymphoedema every 6 to 12; younger children sooner.';

/** A limit's figure as people read it: shares in per cent, everything else in its own unit. */
export function limitShown(name: LimitName, value: number): string {
  return String(LIMITS[name].unit === 'share' ? Number((value * 100).toPrecision(10)) : value);
}

/** The unit beside a limit's figure. */
export function limitUnit(name: LimitName): string {
  return LIMITS[name].unit === 'share' ? '%' : LIMITS[name].unit;
}

/**
 * A limit as it is in force: what it does, the figure that counts, whether the clinic set it, the default, its kind and its source.
 *
 * Example: `Expected girth growth since the piece was measured for: measure the limb. This clinic’s own: 3 % (default 2 %). Clinic default: About …`
 */
export function limitInWords(name: ComparedWith, policy: Policy): string {
  const { does, inForce, usual, kind, source } = name === 'reviewDays' ? reviewParts(policy) : limitParts(name, policy);
  const figure = inForce === usual ? `In force: ${usual}, the default` : `This clinic’s own: ${inForce} (default ${usual})`;
  return `${does}. ${figure}. ${capitalized(kind)}: ${source}`;
}

function limitParts(name: LimitName, policy: Policy) {
  const { does, value, kind, source } = LIMITS[name];
  const unit = limitUnit(name);
  const figure = (one: number) => `${limitShown(name, one)} ${unit}`;
  return { does, inForce: figure(policy[name]), usual: figure(value), kind, source };
}

function reviewParts({ reviewDays }: Policy) {
  const table = (rows: Policy['reviewDays']) =>
    rows.map(({ underYears, days }) => (underYears >= 100 ? `${days} days after` : `${days} days under ${underYears} years`)).join(', ');
  return {
    does: 'From visit to visit by age',
    inForce: table(reviewDays),
    usual: table(DEFAULT_POLICY.reviewDays),
    kind: 'clinic default',
    source: REVIEW_SOURCE,
  };
}
