import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { CautionLine } from '@/app/_cautions/caution-line';
import { CourseLine } from '@/app/_course/course-line';
import { CoveragePanel } from '@/app/_coverage/coverage-panel';
import { loadCoverage } from '@/app/_coverage/load-coverage';
import { TakeOutPanel } from '@/app/_exchange/take-out-panel';
import { AskedByFamily } from '@/app/_family/asked-by-family';
import { FamilyPagesPanel } from '@/app/_family/family-pages-panel';
import { LettersPanel } from '@/app/_letter/letters-panel';
import { LookedPanel } from '@/app/_looked/looked-panel';
import { oncePer } from '@/app/_markup/once-per';
import { rememberedMarkup } from '@/app/_markup/static-markup';
import { EventForm } from '@/app/_patient/event-form';
import { GrowthPanel } from '@/app/_patient/growth-panel';
import { LadderPanel } from '@/app/_patient/ladder-panel';
import { NextAction } from '@/app/_patient/next-action';
import { NotedEvents } from '@/app/_patient/noted-events';
import styles from '@/app/_patient/patient.module.css';
import { PatientTitle } from '@/app/_patient/patient-title';
import { PiecesPanel } from '@/app/_patient/pieces-panel';
import { SchedulePanel } from '@/app/_patient/schedule-panel';
import { VisitsPanel } from '@/app/_patient/visits-panel';
import { VolumePanel } from '@/app/_patient/volume-panel';
import { limbPicture } from '@/app/_picture/limb-picture';
import { loadPatient } from '@/app/_record/load-patient';
import { ExcessFirst } from '@/app/_result/excess-first';
import { MeasuresPanel } from '@/app/_result/measures-panel';
import { PrintButton } from '@/app/_shell/print-button';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { WorkLine } from '@/app/_work/work-line';
import { ownKindsOf } from '@/db/clinic/observed-kinds';
import { familyPagesOf } from '@/db/documents/family-pages';
import { lettersOf } from '@/db/documents/letters';
import { draftOf } from '@/db/patients/drafts';
import { ordersOf } from '@/db/patients/read-orders';
import type { AnalysedLimb } from '@/lib/analysis/analyse-patient';
import { isAtRest } from '@/lib/course/day-to-ask';
import { phaseOn } from '@/lib/course/phases';
import { kindsOf } from '@/lib/observations/catalogue';
import { idsAsked, nothingAskedInWords } from '@/lib/schedule/asked-in-dates';
import { restsByKey } from '@/lib/schedule/rests-in-words';

export const metadata: Metadata = { title: 'Patient' };

const DAY_AND_TIME = { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' } as const;

type Asked = { params: Promise<{ patientId: string }>; searchParams: Promise<{ visits?: string }> };

/** One patient: what to do next, the limb as it is, how it got there, the pieces and the visits. */
export default async function PatientPage({ params, searchParams }: Asked) {
  const [{ patientId }, { visits }] = [await params, await searchParams];
  const therapist = await requireTherapist(`/patients/${patientId}`);
  const mayWrite = therapist.role !== 'read-only';
  const [loaded, draft, orders, familyPages, letters, own] = await Promise.all([
    loadPatient(therapist, patientId),
    mayWrite ? draftOf(therapist, patientId, 'visit') : undefined,
    ordersOf(therapist, patientId),
    familyPagesOf(therapist, patientId),
    lettersOf(therapist, patientId),
    ownKindsOf(therapist),
  ]);
  const { record, analysis, clinic, prompts, raised, answers, dates, stillOpen, today } = loaded;
  const newestVisit = record.visits.findLast((visit) => visit.ladders.length > 0);
  const begunAt = new Intl.DateTimeFormat('en-GB', { ...DAY_AND_TIME, timeZone: clinic.timeZone });
  const coverage = await loadCoverage(therapist, record, orders, today);
  const ended = phaseOn(record.phases, today)?.kind === 'ended';
  const pictures = oncePer(analysis, 'pictures', () => (['leg', 'arm'] as const).flatMap((limb) => limbPicture(analysis, limb) ?? []));
  return (
    <main id="main">
      <PatientTitle record={record} today={today}>
        <a className="button" href={`/patients/${patientId}/details`} data-soft="">
          Details
        </a>
        <a className="button" href={`/patients/${patientId}/report`} data-soft="">
          Progress report
        </a>
        {mayWrite && newestVisit && (
          <a className="button" href={`/patients/${patientId}/visits/${newestVisit.visitId}/family`} data-soft="">
            Family page
          </a>
        )}
        <PrintButton words="Print" />
        {mayWrite && !ended && (
          <a className="button main" href={`/patients/${patientId}/visits/new`} data-soft="">
            {draft ? `Go on with the draft of ${begunAt.format(draft.updatedAt)}` : 'New visit'}
          </a>
        )}
      </PatientTitle>
      <CautionLine loaded={{ analysis }} patientId={patientId} />
      <CourseLine analysis={analysis} patientId={patientId} />
      <WorkLine facts={record.facts} patientId={patientId} today={today} />
      <ExcessFirst analysis={analysis} swelling={!record.diagnosisGroup.endsWith('scar')} shown={analysis.limbs.flatMap(newestOf)} />
      <NextAction
        prompts={prompts}
        patientId={patientId}
        today={today}
        mayAnswer={mayWrite}
        nextVisit={nothingAskedInWords(dates, isAtRest(record.phases, today), today)}
        stillOpen={stillOpen}
        policy={analysis.policy}
        dates={dates}
        pieces={record.pieces}
        asked={<AskedByFamily record={record} dates={dates} patientId={patientId} mayAnswer={mayWrite} />}
      />
      <div className={`stack ${styles.course}`}>
        {pictures.map((picture) => (
          <VolumePanel key={picture.limb} analysis={analysis} limb={picture.limb} swelling={!record.diagnosisGroup.endsWith('scar')}>
            {picture === pictures[0] && (
              <NotedEvents
                events={record.events.map(({ eventId, day, kind, words }) => ({ eventId, day, kind, words }))}
                patientId={patientId}
                mayWrite={mayWrite}
              />
            )}
            {mayWrite && picture === pictures[0] && <EventForm patientId={patientId} submissionId={crypto.randomUUID()} today={today} />}
          </VolumePanel>
        ))}
      </div>
      <div className={styles.patientColumns}>
        {pictures.map((picture) =>
          rememberedMarkup(analysis, `ladder ${picture.limb}`, () => (
            <LadderPanel picture={picture} analysis={analysis} name={picture.limb} />
          )),
        )}
        <PiecesPanel analysis={analysis} orders={orders} patientId={patientId} mayAdd={mayWrite && !ended} />
        {rememberedMarkup(analysis, `visits ${visits === 'all'}`, () => (
          <VisitsPanel analysis={analysis} kept={record.visits} patientId={patientId} all={visits === 'all'} />
        ))}
        <SchedulePanel
          dates={dates}
          rests={restsByKey(dates, raised, answers, today)}
          patientId={patientId}
          today={today}
          mayWrite={mayWrite}
          policy={analysis.policy}
          timeZone={clinic.timeZone}
        />
        {pictures.length > 0 && <GrowthPanel analysis={analysis} />}
        {rememberedMarkup(analysis, 'measures', () => (
          <MeasuresPanel analysis={analysis} />
        ))}
        <LookedPanel observations={record.observations} replies={record.replies} kinds={kindsOf(own)} patientId={patientId} />
        <FamilyPagesPanel
          pages={familyPages}
          replies={record.replies}
          asked={idsAsked(dates, record.replies)}
          patientId={patientId}
          timeZone={clinic.timeZone}
        />
        <LettersPanel letters={letters} timeZone={clinic.timeZone} />
        <CoveragePanel {...coverage} record={record} today={today} mayWrite={mayWrite} />
        <TakeOutPanel patientId={patientId} />
      </div>
      <ProtocolLine />
    </main>
  );
}

/** A limb with its newest visit, where it has one. */
function newestOf(limb: AnalysedLimb) {
  const at = limb.series.visits.at(-1);
  return at ? [{ limb, at }] : [];
}
