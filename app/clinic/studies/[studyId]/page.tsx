import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import styles from '@/app/_service/service.module.css';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { clinicOf } from '@/db/clinic/clinic';
import { type Study, studyOf, studyResultFor, studyStatesFor } from '@/db/service/studies';
import { studyLimitsKept } from '@/db/service/study-limits';
import { isNoAnswer } from '@/lib/outcome';
import { studyLimbInWords } from '@/lib/study/study-plan';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { showLengthWithUnit } from '@/lib/units/show-length';
import { nextTurnOf } from '../turns';
import { ClinicPanel } from './clinic-panel';
import { EndStudy } from './end-study';
import { LimitsPanel } from './limits-panel';
import { MeasurerPanel } from './measurer-panel';
import { TypedPanel } from './typed-panel';

export const metadata: Metadata = { title: 'Measurer study' };

/** A study: how far it is while it goes on, and what it says once every taping is typed. */
export default async function StudyPage({ params }: { params: Promise<{ studyId: string }> }) {
  const therapist = await requireRole('lead', 'therapist');
  const { studyId } = await params;
  const study = await studyOf(therapist, studyId);
  if (!study) notFound();
  const { timeZone } = await clinicOf(therapist);
  const day = todayIn(timeZone, study.lastAt);
  const result = await studyResultFor(therapist, studyId);
  const { plan, isWhole } = study;
  return (
    <main id="main">
      <ClinicTitle title={`Measurer study, ${showDay(day)}`}>
        <p className="secondary">
          {`${plan.limbs.length} limbs × ${plan.measurers.length} measurers × ${plan.repeats} tapings, ${plan.heights.length} girths each, from ${showLengthWithUnit((plan.heights[0]?.nm ?? 0) / 1e6, plan.unit)} to ${showLengthWithUnit((plan.heights.at(-1)?.nm ?? 0) / 1e6, plan.unit)}; order drawn by lot (seed ${plan.seed}).`}
        </p>
      </ClinicTitle>
      {!isWhole && <Progress study={study} personId={therapist.id} endedOn={study.ended && todayIn(timeZone, study.ended.at)} />}
      {!isWhole && !study.ended && therapist.role === 'lead' && <EndStudy studyId={studyId} submissionId={crypto.randomUUID()} />}
      {result && !isNoAnswer(result) && (
        <div className={styles.servicePanels}>
          <ClinicPanel {...result.clinic} />
          {result.measurers.map((one) => (
            <MeasurerPanel
              key={one.measurer}
              of={one}
              name={plan.measurers[one.measurer]?.name ?? ''}
              limbs={plan.limbs.map(studyLimbInWords)}
            />
          ))}
          <LimitsPanel
            studyId={studyId}
            errors={result.errors}
            kept={await studyLimitsKept(therapist, studyId, day)}
            mayKeep={therapist.role === 'lead'}
          />
        </div>
      )}
      {result && !isNoAnswer(result) && (
        <TypedPanel study={study} states={await studyStatesFor(therapist, studyId)} personId={therapist.id} timeZone={timeZone} />
      )}
    </main>
  );
}

type ProgressProps = { readonly study: Study; readonly personId: string; readonly endedOn: CalendarDay | null };

function Progress({ study, personId, endedOn }: ProgressProps) {
  const { studyId, plan, typed } = study;
  const next = nextTurnOf(study, personId);
  const each = plan.limbs.length * plan.repeats;
  return (
    <section className="panel" aria-labelledby="how-far">
      <h2 id="how-far">How far it is</h2>
      <p className="secondary">
        {study.ended && endedOn
          ? `Ended on ${showDay(endedOn)}: ${study.ended.reason} What was typed stays in the record and is not shown.`
          : 'Nothing is shown of any figure until all are typed.'}
      </p>
      <ul>
        {plan.measurers.map(({ id, name }, measurer) => (
          <li key={id}>{`${name}: ${[...typed].filter((turn) => turn.startsWith(`${measurer}-`)).length} of ${each}`}</li>
        ))}
      </ul>
      {next ? (
        <a className="button main" href={`/clinic/studies/${studyId}/${next}`} data-soft="">
          {typed.size === 0 ? 'Begin taping' : 'Go on taping'}
        </a>
      ) : study.ended ? null : (
        <p>{plan.measurers.some(({ id }) => id === personId) ? 'Yours are typed.' : 'You do not tape in it.'}</p>
      )}
    </section>
  );
}
