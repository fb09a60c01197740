import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { clinicOf } from '@/db/clinic/clinic';
import { studiesOf } from '@/db/service/studies';
import { showDay } from '@/lib/units/calendar-day';
import { nextTurnOf } from './turns';

export const metadata: Metadata = { title: 'Measurer studies' };

/** Studies of how well the tape repeats: those that somebody tapes in, all of them for a lead. */
export default async function StudiesPage() {
  const therapist = await requireRole('lead', 'therapist');
  const [studies, { timeZone }] = [await studiesOf(therapist), await clinicOf(therapist)];
  return (
    <main id="main">
      <ClinicTitle title="Measurer studies">
        <p className="secondary">
          Some limbs, taped by two of you or more, twice or more, in an order drawn by lot and without seeing an earlier figure. It says how
          far two tapings may differ while nothing has changed. Figures of a person are seen by that person and a lead; people are never
          ranked.
        </p>
      </ClinicTitle>
      <div className="actions">
        <a className="button main" href="/clinic/studies/new" data-soft="">
          Begin a study
        </a>
      </div>
      <h2 className="section-head">Studies</h2>
      {studies.length === 0 ? (
        <p className="nothing-yet">No study that you tape in was begun yet.</p>
      ) : (
        <table className="worklist">
          <thead>
            <tr>
              <ColumnHeads of={['Begun', 'Of', 'Typed', 'Yours']} />
            </tr>
          </thead>
          <tbody>
            {studies.map((study) => {
              const { studyId, plan, typed, begunAt, isWhole, ended } = study;
              const next = nextTurnOf(study, therapist.id);
              return (
                <tr key={studyId}>
                  <th scope="row">
                    <a href={`/clinic/studies/${studyId}`} data-soft="">
                      {showDay(todayIn(timeZone, begunAt))}
                    </a>
                  </th>
                  <td>{`${plan.limbs.length} limbs, ${plan.measurers.length} measurers, ${plan.repeats} tapings each`}</td>
                  <td>{isWhole ? 'all' : `${typed.size} of ${plan.limbs.length * plan.measurers.length * plan.repeats}`}</td>
                  <td className="whole-row">
                    {next ? (
                      <a href={`/clinic/studies/${studyId}/${next}`} data-soft="">
                        Go on
                      </a>
                    ) : isWhole ? (
                      'result'
                    ) : ended ? (
                      `ended on ${showDay(todayIn(timeZone, ended.at))}`
                    ) : (
                      'done; others are not'
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
    </main>
  );
}
