import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { clinicOf, historyOfSetting } from '@/db/clinic/clinic';
import { OWN_KINDS_KEY, ownKindsOf } from '@/db/clinic/observed-kinds';
import { peopleOf } from '@/db/people/people';
import { typedOwnKinds } from '@/lib/forms/read-own-kinds';
import { OBSERVED_KINDS } from '@/lib/observations/catalogue';
import { OwnKindsForm } from './own-kinds-form';

export const metadata: Metadata = { title: 'What is looked at' };

/** What is looked at each time beside the measures: the catalogue with its sources, and what the clinic adds. */
export default async function ClinicLookedPage() {
  const therapist = await requireTherapist('/clinic/looked');
  const [own, clinic, history, people] = await Promise.all([
    ownKindsOf(therapist),
    clinicOf(therapist),
    historyOfSetting(therapist, OWN_KINDS_KEY),
    peopleOf(therapist),
  ]);
  return (
    <main id="main">
      <ClinicTitle title="What is looked at">
        <p className="secondary">
          Beside the measures, at each visit: each figure with its range, and the least change that is called one.
        </p>
      </ClinicTitle>
      <div className="table-frame">
        <table>
          <thead>
            <tr>
              <ColumnHeads of={['Kind', 'Figures', 'Least change', 'Source']} />
            </tr>
          </thead>
          <tbody>
            {OBSERVED_KINDS.map(({ id, label, items, error, source }) => (
              <tr key={id}>
                <th scope="row">{label}</th>
                <td>{items.map((item) => `${item.label}, ${item.low} to ${item.high} ${item.unit}`).join('; ')}</td>
                <td>{error ? `${error.leastChange}, ${error.kind}` : 'not known'}</td>
                <td>{[source, error?.source].filter(Boolean).join(' ')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <h2 className="section-head">Added by the clinic</h2>
      {therapist.role === 'lead' ? (
        <OwnKindsForm key={history.length} start={typedOwnKinds(own)} standing={own.length} />
      ) : (
        <ul>
          {own.map(({ id, label, unit, low, high, asked }) => (
            <li key={id}>{`${label}, ${low} to ${high} ${unit}${asked ? '' : ', asked no more'}`}</li>
          ))}
        </ul>
      )}
      <SettingChanges history={history} people={people} timeZone={clinic.timeZone} />
    </main>
  );
}
