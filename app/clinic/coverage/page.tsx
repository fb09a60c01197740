import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { clinicOf, historyOfSetting } from '@/db/clinic/clinic';
import { COVERAGE_KEY, coverageRulesOf } from '@/db/clinic/coverage';
import { peopleOf } from '@/db/people/people';
import { coverageFormOf } from '@/lib/forms/read-coverage-form';
import type { CoverageRule } from '@/lib/record/coverage';
import { CoverageForm } from './coverage-form';

export const metadata: Metadata = { title: 'Coverage rules' };

/** What payers cover, as this clinic has written it down: each rule with its source, and who changed what. */
export default async function CoveragePage() {
  const therapist = await requireTherapist('/clinic/coverage');
  const [rules, clinic] = [await coverageRulesOf(therapist), await clinicOf(therapist)];
  const [history, people] = [await historyOfSetting(therapist, COVERAGE_KEY), await peopleOf(therapist)];
  return (
    <main id="main">
      <ClinicTitle title="Coverage rules">
        <p className="secondary">
          No payer and no country is built in. Write down what a payer covers; each patient is then told to one of the rules.
        </p>
      </ClinicTitle>
      {rules.length === 0 && <p className="nothing-yet">No rule yet. Orders are not held against any payer’s clock.</p>}
      {rules.map((rule) => (
        <section key={rule.id} className="panel" aria-label={rule.payer}>
          <h2>{rule.payer}</h2>
          <p>{ruleInWords(rule)}</p>
          <p className="secondary">{`Source: ${rule.source}`}</p>
          {therapist.role === 'lead' && (
            <details className="as-table">
              <summary>Change it</summary>
              <CoverageForm id={rule.id} start={coverageFormOf(rule)} />
            </details>
          )}
        </section>
      ))}
      {therapist.role === 'lead' && (
        <details className="as-table" open={rules.length === 0}>
          <summary>Write down a rule</summary>
          <CoverageForm id="new" start={{}} />
        </details>
      )}
      <SettingChanges history={history} people={people} timeZone={clinic.timeZone} />
    </main>
  );
}

function ruleInWords({ lines, exceptions }: CoverageRule): string {
  const covered = lines.map((line) => {
    const period = line.clock === 'fixed' ? `each ${line.months} months from the first day` : `any ${line.months} months`;
    return `${line.quantity} by ${line.use} for each limb in ${period}`;
  });
  return `${covered.join('; ')}. Outside the clock: ${exceptions.join(', ') || 'nothing'}.`;
}
