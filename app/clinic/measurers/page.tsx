import type { Metadata } from 'next';
import Link from 'next/link';
import { requireRole } from '@/app/_auth/therapist';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { clinicOf, historyOfSetting } from '@/db/clinic/clinic';
import { MEASURERS_KEY, measurerMatches, measurerTexts } from '@/db/patients/measurers';
import { peopleOf } from '@/db/people/people';
import { knownMeasurers, MEASURER_BOUNDS, measurerDigest, measurerIdOf } from '@/lib/record/measurer';
import { MatchForm } from './match-form';

export const metadata: Metadata = { title: 'Who measured' };

/** Whose each text is that visits name a measurer by: said once by a lead, no visit is changed by it. */
export default async function MeasurersPage() {
  const therapist = await requireRole('lead');
  const [matches, texts, people, clinic, history] = await Promise.all([
    measurerMatches(therapist),
    measurerTexts(therapist),
    peopleOf(therapist),
    clinicOf(therapist),
    historyOfSetting(therapist, MEASURERS_KEY),
  ]);
  const known = knownMeasurers(matches, people);
  const named = people.map(({ id, name }) => ({ id, name }));
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>Who measured</h1>
          <p className="secondary">
            A text that is a colleague’s full name is theirs. Say of the others whose they are; visits stay as they were written.
          </p>
        </div>
        <Link className="button" href="/clinic" prefetch={false}>
          Back to the clinic
        </Link>
      </div>
      {texts.length === 0 ? (
        <p className="nothing-yet">No visit names a measurer yet.</p>
      ) : (
        <div className="table-frame">
          <table>
            <thead>
              <tr>
                {['Written', 'Visits', 'Taken for', 'Whose it is'].map((head) => (
                  <th key={head} scope="col">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {texts.map(({ text, visits }) => {
                const digest = measurerDigest(text);
                const is = known.matches.get(digest);
                const id = measurerIdOf(text, known);
                const person = people.find((one) => id === `person ${one.id}`)?.name;
                const taken =
                  person ?? (is?.kind === 'outsider' ? `${is.role}, outside` : is ? 'left as it stands' : 'nobody yet: names are compared');
                return (
                  <tr key={text}>
                    <th scope="row">{text}</th>
                    <td className="numeric">{visits}</td>
                    <td>{taken}</td>
                    <td>
                      <MatchForm
                        key={JSON.stringify(is ?? null)}
                        text={text}
                        digest={digest}
                        number={history.length}
                        people={named}
                        whose={is?.kind === 'person' ? is.personId : (is?.kind ?? '')}
                        longest={MEASURER_BOUNDS.role}
                        role={is?.kind === 'outsider' ? is.role : ''}
                      />
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      <SettingChanges history={history} people={people} timeZone={clinic.timeZone} />
    </main>
  );
}
