import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { clinicOf, historyOfSetting } from '@/db/clinic/clinic';
import { MEASURERS_KEY, measurerMatches, measurerTexts } from '@/db/patients/measurers';
import { peopleOf } from '@/db/people/people';
import { knownMeasurers, MEASURER_BOUNDS, measurerDigest, measurerIdOf } from '@/lib/record/measurer';
import { MatchForm } from './match-form';

export const metadata: Metadata = { title: 'Who measured' };

/** Texts on one page, and the last page that an address may ask for. */
const [ON_A_PAGE, LAST_PAGE] = [200, 100] as const;

/** Whose each text is that visits name a measurer by: said once by a lead, no visit is changed by it. */
export default async function MeasurersPage({ searchParams }: { searchParams: Promise<{ page?: string | string[] }> }) {
  const asked = (await searchParams).page;
  const page = Math.max(1, Math.min(LAST_PAGE, Math.trunc(Number(asked)) || 1));
  const therapist = await requireRole('lead');
  const [matches, found, people, clinic, history] = await Promise.all([
    measurerMatches(therapist),
    measurerTexts(therapist, page * ON_A_PAGE + 1),
    peopleOf(therapist),
    clinicOf(therapist),
    historyOfSetting(therapist, MEASURERS_KEY),
  ]);
  const texts = found.slice((page - 1) * ON_A_PAGE, page * ON_A_PAGE);
  const more = found.length > page * ON_A_PAGE;
  const known = knownMeasurers(matches, people);
  const named = people.map(({ id, name }) => ({ id, name }));
  return (
    <main id="main">
      <ClinicTitle title="Who measured">
        <p className="secondary">
          A text that is a colleague’s full name is theirs. Say of the others whose they are; visits stay as they were written.
        </p>
      </ClinicTitle>
      {texts.length === 0 ? (
        <p className="nothing-yet">{page > 1 ? 'No more texts stand here.' : 'No visit names a measurer yet.'}</p>
      ) : (
        <div className="table-frame">
          <table>
            <thead>
              <tr>
                <ColumnHeads of={['Written', 'Visits', 'Taken for', 'Whose it is']} />
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
                        page={page}
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
      {(page > 1 || more) && (
        <nav className="pages" aria-label="Pages of the list">
          {page > 1 ? (
            <a href={`/clinic/measurers?page=${page - 1}`} data-soft="">
              More often written
            </a>
          ) : (
            <span />
          )}
          <span className="secondary">{`page ${page}, the most often written first${more ? '; more texts follow' : ''}`}</span>
          {more && page < LAST_PAGE ? (
            <a href={`/clinic/measurers?page=${page + 1}`} data-soft="">
              Less often written
            </a>
          ) : (
            <span />
          )}
        </nav>
      )}
      <SettingChanges history={history} people={people} timeZone={clinic.timeZone} />
    </main>
  );
}
