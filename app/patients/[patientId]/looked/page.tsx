import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import styles from '@/app/_looked/looked.module.css';
import { LookedForm } from '@/app/_looked/looked-form';
import { LookedHistory } from '@/app/_looked/looked-history';
import { LookedTable } from '@/app/_looked/looked-table';
import { typedLooked } from '@/app/_looked/looked-words';
import { MarksPicture } from '@/app/_looked/marks-picture';
import { TimeLineChart } from '@/app/_looked/time-line';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { ownKindsOf } from '@/db/clinic/observed-kinds';
import { notedHistory } from '@/db/patients/noted';
import { kindsOf, timeLines } from '@/lib/observations/catalogue';
import { TOLD_WEAR, toldWear } from '@/lib/observations/family-reply';
import type { LimbSide } from '@/lib/record/patient-record';
import { type CalendarDay, readDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Looked at' };

type Asked = { params: Promise<{ patientId: string }>; searchParams: Promise<{ correct?: string; day?: string | string[] }> };

/** What is looked at each time beside the measures: over time, marks on the limb, a folded form a kind, and every state. */
export default async function LookedPage({ params, searchParams }: Asked) {
  const [{ patientId }, { correct = '', day }] = [await params, await searchParams];
  const therapist = await requireTherapist(`/patients/${patientId}/looked`);
  const { record, analysis, clinic, today } = await loadPatient(therapist, patientId);
  const mayWrite = therapist.role !== 'read-only';
  const own = await ownKindsOf(therapist);
  const kinds = kindsOf(own);
  const asked = kinds.filter(({ id }) => own.every((one) => one.id !== id || one.asked));
  const { observations } = record;
  const lines = [...timeLines(observations, kinds), ...timeLines(toldWear(record.replies), [TOLD_WEAR])];
  const marks = observations.filter(
    ({ kind, place, gone }) => place && !gone && kinds.some(({ id, where }) => id === kind && where === 'place'),
  );
  const numbers = new Map(marks.map(({ observationId }, at) => [observationId, at + 1]));
  const limbs = [...new Map(marks.flatMap(({ place }) => (place ? [[`${place.side} ${place.limb}`, place] as const] : []))).values()];
  const corrected = observations.find(({ observationId }) => observationId === correct);
  const kindCorrected = kinds.find(({ id }) => id === corrected?.kind);
  const history = await notedHistory(therapist, patientId, 'observation');
  const form = { patientId, today, limbs: limbChoices(record.affected) };
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying="Looked at each time: wear, pressure, skin, scar, motion, itch">
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      {lines.length > 0 && (
        <section className="panel" aria-label="Over time">
          <ul className={styles.lines}>
            {lines.map((line) => (
              <TimeLineChart key={[line.kind.id, line.kind.version, line.item.id, line.side, line.choice].join(' ')} line={line} />
            ))}
          </ul>
          <p className="secondary">A bar at the newest figure: changes within it are within error. Sources stand with each form.</p>
        </section>
      )}
      {limbs.length > 0 && (
        <section className="panel" aria-label="Marks on the skin">
          <div className={styles.marks}>
            {limbs.map(({ limb, side }) => (
              <MarksPicture
                key={`${side} ${limb}`}
                analysis={analysis}
                limb={{ limb, side }}
                numbers={numbers}
                marks={marks.filter(({ place }) => place?.limb === limb && place.side === side)}
              />
            ))}
          </div>
        </section>
      )}
      {observations.length === 0 ? (
        <p className="nothing-yet">Nothing was looked at yet.</p>
      ) : (
        <LookedTable
          numbers={numbers}
          observations={[...observations].reverse()}
          kinds={kinds}
          patientId={patientId}
          today={today}
          mayWrite={mayWrite}
        />
      )}
      {mayWrite && corrected && kindCorrected && (
        <>
          <h2 className="section-head" id="form">{`Correct: ${kindCorrected.label}`}</h2>
          <div className="panel">
            <LookedForm
              key={correct}
              {...form}
              kind={kindCorrected}
              submissionId={crypto.randomUUID()}
              start={typedLooked(corrected)}
              corrected={{ observationId: corrected.observationId, number: corrected.number }}
            />
          </div>
        </>
      )}
      {mayWrite && !corrected && (
        <>
          <h2 className="section-head">Look at it</h2>
          {asked.map((kind) => (
            <details key={kind.id} className="as-table">
              <summary>{kind.label}</summary>
              <LookedForm
                key={history.length}
                {...form}
                kind={kind}
                submissionId={crypto.randomUUID()}
                start={{ day: dayToLookAt(day, today) }}
                corrected={null}
              />
              <p className="secondary">{[kind.source, kind.error?.source].filter(Boolean).join(' ')}</p>
            </details>
          ))}
        </>
      )}
      <LookedHistory history={history} kinds={kinds} timeZone={clinic.timeZone} />
    </main>
  );
}

/** The day of the visit that the way here named, else today; none that lies ahead. */
function dayToLookAt(asked: string | string[] | undefined, today: CalendarDay): CalendarDay {
  const read = readDay(typeof asked === 'string' ? asked : '');
  return read.kind === 'read' && read.value < today ? read.value : today;
}

/** The affected limbs first, then the others. */
function limbChoices(affected: readonly LimbSide[]): readonly string[] {
  const all = ['left leg', 'right leg', 'left arm', 'right arm'];
  return [...new Set([...affected.map(({ side, limb }) => `${side} ${limb}`), ...all])];
}
