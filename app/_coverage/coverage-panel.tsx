import type { KeptRecord } from '@/db/patients/records';
import type { CoverageRule } from '@/lib/record/coverage';
import { clockInWords, type LimbClock } from '@/lib/schedule/coverage-of-patient';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { CoverageChoice } from './coverage-choice';

type Props = {
  readonly record: KeptRecord;
  readonly rules: readonly CoverageRule[];
  readonly now: { readonly rule: CoverageRule; readonly from: CalendarDay; readonly clocks: readonly LimbClock[] } | null;
  readonly today: CalendarDay;
  readonly mayWrite: boolean;
};

/** Where the payer's clock stands for each limb, and the choice of the rule. Nothing is shown in a clinic without rules. */
export function CoveragePanel({ record, rules, now, today, mayWrite }: Props) {
  if (rules.length === 0) return null;
  return (
    <section className="panel" aria-labelledby="coverage-head">
      <div className="panel-head">
        <h2 id="coverage-head">Coverage</h2>
      </div>
      {now ? (
        <>
          <p>{`${now.rule.payer}, counted from ${showDay(now.from)}.`}</p>
          <ul className="plain-list">
            {now.clocks.map((one) => (
              <li key={`${one.limb} ${one.side} ${one.clock.line.use}`}>{clockInWords(one)}</li>
            ))}
          </ul>
          <p className="secondary">{`Source: ${now.rule.source}`}</p>
        </>
      ) : (
        <p className="secondary">No payer’s rule is chosen for this patient.</p>
      )}
      {mayWrite && (
        <details className="as-table">
          <summary>{now ? 'Change the rule' : 'Choose the rule'}</summary>
          <CoverageChoice
            patientId={record.head.patientId}
            rules={rules.map(({ id, payer }) => ({ id, payer }))}
            chosen={now?.rule.id ?? ''}
            from={now?.from ?? record.visits[0]?.day ?? today}
          />
        </details>
      )}
    </section>
  );
}
