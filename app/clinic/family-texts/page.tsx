import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { historyOfSetting } from '@/db/clinic/clinic';
import { clinicDetailsOf } from '@/db/clinic/clinic-details';
import { clinicTextsOf, FAMILY_TEXTS_KEY } from '@/db/clinic/family-texts';
import { peopleOf } from '@/db/people/people';
import { emergencyWhereEmpty } from '@/lib/summary/family/emergency-number';
import { FAMILY_LANGUAGES } from '@/lib/summary/family/family-languages';
import { TextsForm } from './texts-form';

export const metadata: Metadata = { title: 'Family texts' };

/** What the clinic says on the family page, by language: published advice differs, so the words are the clinic's own. */
export default async function FamilyTextsPage() {
  const therapist = await requireTherapist('/clinic/family-texts');
  const [texts, details] = [await clinicTextsOf(therapist), await clinicDetailsOf(therapist)];
  const [history, people] = [await historyOfSetting(therapist, FAMILY_TEXTS_KEY), await peopleOf(therapist)];
  return (
    <main id="main">
      <ClinicTitle title="Family texts">
        <p className="secondary">
          Washing, waiting and calling, in the clinic’s own words. Short sentences read best. Pages that are approved already stay as they
          are.
        </p>
      </ClinicTitle>
      {FAMILY_LANGUAGES.map(({ language, name, defaults, noCare }) =>
        therapist.role === 'lead' ? (
          <TextsForm
            key={language}
            language={language}
            name={name}
            start={{ ...texts[language], phone: texts[language]?.phone || (details.phone ?? '') }}
            emergencyEmpty={emergencyWhereEmpty(details)}
            defaults={defaults}
          />
        ) : (
          <section key={language} className="panel">
            <h2 lang={language}>{name}</h2>
            <p lang={language}>{texts[language]?.care || noCare}</p>
            <p lang={language}>{texts[language]?.wait || defaults.wait}</p>
            <p>{texts[language]?.phone || 'No phone number is written down yet.'}</p>
          </section>
        ),
      )}
      <SettingChanges history={history} people={people} timeZone={details.timeZone} />
    </main>
  );
}
