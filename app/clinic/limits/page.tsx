import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { clinicOf, historyOfSetting, type Setting } from '@/db/clinic/clinic';
import { POLICY_KEY, policyInForce } from '@/db/clinic/policy';
import { peopleOf } from '@/db/people/people';
import { limitShown, limitUnit, REVIEW_SOURCE } from '@/lib/limits/limit-in-words';
import { LIMIT_GROUPS, LIMITS, type LimitName } from '@/lib/limits/limits';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { STUDY_LIMIT_NAMES, STUDY_REASON } from '@/lib/study/study-limits';
import { capitalized } from '@/lib/units/capitalized';
import { LearntScalePanel } from './learnt-scale-panel';
import styles from './limits.module.css';
import { LimitsForm } from './limits-form';
import { ownTapings } from './own-tapings';

export const metadata: Metadata = { title: 'Limits' };

/** Every limit that the engine works with: this clinic's value, the default, its kind and source, and who changed what. */
export default async function LimitsPage() {
  const therapist = await requireTherapist('/clinic/limits');
  const { policy, reading } = await policyInForce(therapist);
  const clinic = await clinicOf(therapist);
  const [history, people] = [await historyOfSetting(therapist, POLICY_KEY), await peopleOf(therapist)];
  const clock = dayAndTime(clinic.timeZone);
  const lineOf = (name: LimitName) => {
    const { does, kind, source, value } = LIMITS[name];
    const line = { name, does, kind, source, now: limitShown(name, policy[name]), usual: limitShown(name, value), unit: limitUnit(name) };
    const studied = studyBehind(name, policy[name], history);
    if (name === 'readingSdMm') return { ...line, ...ownTapings(reading), ...(studied && { because: studied }) };
    return studied ? { ...line, because: studied } : line;
  };
  const groups = LIMIT_GROUPS.map(({ name, limits }) => ({ name, lines: limits.map(lineOf) }));
  const review = policy.reviewDays.map((row, index) => ({
    name: `review-${index}`,
    kind: 'clinic default',
    unit: 'days',
    does: row.underYears >= 100 ? 'Review interval, adults' : `Review interval under ${row.underYears} years`,
    now: String(row.days),
    usual: String(DEFAULT_POLICY.reviewDays[index]?.days ?? row.days),
    source: REVIEW_SOURCE,
  }));
  return (
    <main id="main">
      <ClinicTitle title="Limits">
        <p className="secondary">
          What the program compares with. Local protocol and the prescriber come first; a lead can set each figure.
        </p>
        <p className="secondary">
          A spread is a standard deviation: two figures of three lie within one of it from the middle, nineteen of twenty within two.
        </p>
      </ClinicTitle>
      <LimitsForm
        groups={[...groups, { name: 'Visits and reviews', lines: review }]}
        growthReference={policy.growthReference}
        mayChange={therapist.role === 'lead'}
        number={history.length}
      />
      {therapist.role === 'lead' && <LearntScalePanel now={policy.errorScale} />}
      <h2 className="section-head">Changes</h2>
      {history.length === 0 ? (
        <p className="nothing-yet">Nothing was set by hand yet.</p>
      ) : (
        <ul className={styles.limitHistory}>
          {[...history].reverse().map((change) => (
            <li key={change.at.toISOString()}>
              {`${clock.format(change.at)}, ${people.find((one) => one.id === change.by)?.name ?? 'somebody'}: ${change.reason ?? ''} `}
              <span className="secondary">{ownInWords(change.value)}</span>
            </li>
          ))}
        </ul>
      )}
    </main>
  );
}

/** Where a limit is from that a measurer study set and that still stands so: the sentence kept with it. */
function studyBehind(name: LimitName, now: number, history: readonly Setting[]): string | undefined {
  const of = (one: Setting | undefined) => ((one?.value ?? {}) as Partial<Record<LimitName, number>>)[name];
  const first = history.findLastIndex((one) => of(one) !== now) + 1;
  const reason = of(history[first]) === now ? history[first]?.reason : undefined;
  return STUDY_LIMIT_NAMES.some((one) => one === name) && reason?.startsWith(STUDY_REASON) ? `${capitalized(reason)}.` : undefined;
}

function ownInWords(value: unknown): string {
  const own = Object.entries((value ?? {}) as Record<string, unknown>);
  if (own.length === 0) return '(all defaults)';
  return `(${own.map(([name, figure]) => `${LIMITS[name as LimitName]?.does ?? name}: ${typeof figure === 'number' && name in LIMITS ? `${limitShown(name as LimitName, figure)} ${limitUnit(name as LimitName)}` : JSON.stringify(figure)}`).join('; ')})`;
}
