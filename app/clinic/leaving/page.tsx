import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { clinicOf, historyOfSetting } from '@/db/clinic/clinic';
import { LEAVING_KEY, leavingTextsOf } from '@/db/clinic/leaving-texts';
import { peopleOf } from '@/db/people/people';
import { FAMILY_LANGUAGES } from '@/lib/summary/family/family-languages';
import { LeavingTextsForm } from './leaving-texts-form';

export const metadata: Metadata = { title: 'Leaving' };

/** What the clinic asks before somebody leaves, and how they come back. */
export default async function LeavingTextsPage() {
  const therapist = await requireTherapist('/clinic/leaving');
  const [texts, clinic, history, people] = await Promise.all([
    leavingTextsOf(therapist),
    clinicOf(therapist),
    historyOfSetting(therapist, LEAVING_KEY),
    peopleOf(therapist),
  ]);
  const wayBack = Object.fromEntries(Object.entries(texts.wayBack).map(([language, words]) => [`wayBack-${language}`, words]));
  return (
    <main id="main">
      <ClinicTitle title="Leaving">
        <p className="secondary">Gone through before a course ends, by a person. Nothing ends by itself.</p>
      </ClinicTitle>
      {therapist.role === 'lead' ? (
        <LeavingTextsForm
          key={history.length}
          number={history.length}
          start={{ criteria: texts.criteria.join('\n'), ...wayBack }}
          languages={FAMILY_LANGUAGES.map(({ language, name }) => ({ language, name }))}
        />
      ) : (
        <ul>
          {texts.criteria.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      )}
      <SettingChanges history={history} people={people} timeZone={clinic.timeZone} />
    </main>
  );
}
