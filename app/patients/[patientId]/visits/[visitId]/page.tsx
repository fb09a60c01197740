import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { requireTherapist } from '@/app/_auth/therapist';
import { CautionLine } from '@/app/_cautions/caution-line';
import { LookedOnDay } from '@/app/_looked/looked-on-day';
import { PatientTitle } from '@/app/_patient/patient-title';
import { PlanView } from '@/app/_patient/plan-view';
import { limbPicture, pictureOf } from '@/app/_picture/limb-picture';
import { loadPatient } from '@/app/_record/load-patient';
import { changeRows } from '@/app/_result/change-rows';
import { ExcessFirst } from '@/app/_result/excess-first';
import { LeftOpen } from '@/app/_result/left-open';
import { LimbResult } from '@/app/_result/limb-result';
import { LookingBackLines } from '@/app/_result/looking-back';
import { MeasureFitTable } from '@/app/_result/measure-fit-table';
import { MeasuresPanel } from '@/app/_result/measures-panel';
import { NextSteps } from '@/app/_result/next-steps';
import { OtherReadings } from '@/app/_result/other-readings';
import { PieceResult } from '@/app/_result/piece-result';
import { ResidualLines } from '@/app/_result/residual-lines';
import styles from '@/app/_result/result.module.css';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { ownKindsOf } from '@/db/clinic/observed-kinds';
import { givenAnswersOf } from '@/db/worklist/given-answers';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import type { AnalysedPiece } from '@/lib/analysis/analyse-piece';
import { measureFits } from '@/lib/garments/measure-fit';
import { showAge } from '@/lib/units/age';
import { showShortWeekday } from '@/lib/units/calendar-day';

/** Charts of so many cuts are open at once. */
const PIECES_SHOWN = 3;

export const metadata: Metadata = { title: 'Visit' };

/** The result of a visit, at once: a verdict per limb with its figures, how each piece sits, and what to consider. */
export default async function VisitPage({ params }: { params: Promise<{ patientId: string; visitId: string }> }) {
  const { patientId, visitId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/visits/${visitId}`);
  const loaded = await loadPatient(therapist, patientId);
  const { record, today } = loaded;
  const index = record.visits.findIndex((one) => one.visitId === visitId);
  const visit = record.visits[index];
  if (!visit) notFound();
  const newest = index === record.visits.length - 1;
  const answers = newest ? [] : await givenAnswersOf(therapist, [patientId]);
  const given = answers.find((one) => one.visitId === visitId && one.revision === visit.revision);
  const analysis = newest
    ? loaded.analysis
    : analysePatient({ ...record, visits: record.visits.slice(0, index + 1) }, loaded.analysis.policy, visit.day);
  const limbs = analysis.limbs.flatMap((limb) => {
    const at = limb.visits.find((one) => one.at.visit === visit);
    return at ? [{ limb, at }] : [];
  });
  const ordered = [...limbs].sort((one, other) => other.limb.series.side.localeCompare(one.limb.series.side));
  const taped = limbs.reduce((sum, { at }) => sum + at.at.placed.line.girthsMm.length, 0);
  const kept = limbs.reduce((sum, { at }) => sum + at.at.ladder.rungs.filter((rung) => rung.kept?.length).length, 0);
  const pieces = analysis.pieces.filter(
    (one) =>
      one.inUse &&
      (one.piece.covers === 'measures'
        ? measureFits(one.piece, analysis.trusted, analysis.policy).some(({ nowDay }) => nowDay === visit.day)
        : limbs.some(({ limb }) => limb.series.limb === one.piece.limb && limb.series.side === one.piece.side)),
  );
  const mayWrite = therapist.role !== 'read-only';
  const visitRef = mayWrite ? { patientId, visitId, revision: visit.revision, submissionId: crypto.randomUUID() } : null;
  const beside = ordered.flatMap(({ limb, at }) => changeRows(limb, at, analysis));
  const kinds = pieces.filter(firstOfItsKind);
  const shown = (one: AnalysedPiece) => (
    <PieceResult
      key={one.piece.piece}
      one={one}
      alike={pieces.filter((other) => kindOf(other) === kindOf(one))}
      analysis={analysis}
      picture={pictureOf(analysis, one.piece)}
    />
  );
  const ageThen = showAge(record.born, visit.day);
  return (
    <main id="main">
      <PatientTitle
        record={record}
        today={today}
        saying={`Visit of ${showShortWeekday(visit.day)} ${visit.day.slice(0, 4)}${visit.time ? `, ${visit.time}` : ''}${visit.measurer ? `, measured by ${visit.measurer}` : ''}${visit.posture ? `, ${visit.posture}` : ''}${ageThen === showAge(record.born, today) ? '' : `, at ${ageThen}`} · ${taped} girths${kept > 0 ? `, ${kept} question${kept === 1 ? '' : 's'} answered` : ''}${visit.revision > 1 ? ` · corrected ${visit.revision - 1}×` : ''}`}
      >
        {mayWrite && taped > 0 && (
          <a className="button" href={`/patients/${patientId}/visits/${visitId}/family`} data-soft="">
            Family page
          </a>
        )}
        {mayWrite && newest && loaded.prompts.length > 0 && (
          <a className="button" href={`/patients/${patientId}/orders/new`} data-soft="">
            Order from these measurements
          </a>
        )}
        {mayWrite && (
          <a className="button" href={`/patients/${patientId}/visits/${visitId}/correct`} data-soft="">
            Correct a figure
          </a>
        )}
        <a className="button main" href={`/patients/${patientId}`} data-soft="">
          Done
        </a>
      </PatientTitle>
      <CautionLine loaded={loaded} patientId={patientId} />
      <ExcessFirst
        analysis={analysis}
        swelling={!record.diagnosisGroup.endsWith('scar')}
        shown={limbs.map(({ limb, at: { at } }) => ({ limb, at }))}
      />
      <div className={`halves ${styles.verdicts}`}>
        {ordered.map(({ limb, at }) => (
          <LimbResult
            key={limb.series.side + limb.series.limb}
            limb={limb}
            visit={at}
            analysis={analysis}
            picture={limbPicture(analysis, limb.series.limb)}
            visitRef={visitRef}
            timeZone={loaded.clinic.timeZone}
            beside={beside}
          >
            <LookingBackLines limb={limb} visit={at} now={loaded.analysis} given={given} />
          </LimbResult>
        ))}
      </div>
      {limbs.some(({ at }) => at.sinceLast || at.sinceBaseline) && (
        <p className={`${styles.rulerKey} secondary`}>
          All of volume. Grey hatch: too small to tell from tape error. Violet box: what height, weight or the other limb lead one to
          expect. Mark and line: measured change, 95 % range.
        </p>
      )}
      <LeftOpen loaded={loaded} visit={visit} mayWrite={mayWrite} shown={limbs.flatMap(({ at }) => at.at.doubts)} />
      <ResidualLines limbs={limbs} />
      <MeasuresPanel analysis={analysis} visitId={visitId} />
      {kinds.map(({ piece }) => (
        <MeasureFitTable key={piece.piece} piece={piece} analysis={analysis} />
      ))}
      <OtherReadings visit={visit} />
      <LookedOnDay observations={record.observations} own={await ownKindsOf(therapist)} {...{ patientId, day: visit.day, mayWrite }} />
      {kinds.slice(0, PIECES_SHOWN).map(shown)}
      {kinds.length > PIECES_SHOWN && (
        <details className={`as-table ${styles.morePieces}`}>
          <summary>{`${kinds.length - PIECES_SHOWN} more worn at this visit`}</summary>
          {kinds.slice(PIECES_SHOWN).map(shown)}
        </details>
      )}
      {newest && loaded.prompts.length > 0 && (
        <section aria-labelledby="consider-head">
          <h2 id="consider-head" className="section-head">
            Plan <span className="head-note">{`${loaded.prompts.length} to consider, in the order in which it is done`}</span>
          </h2>
          <PlanView
            prompts={loaded.prompts}
            patientId={patientId}
            today={today}
            mayAnswer={mayWrite}
            dates={loaded.dates}
            pieces={loaded.record.pieces}
            policy={loaded.analysis.policy}
            first={false}
          />
        </section>
      )}
      {newest && loaded.prompts.length === 0 && (
        <NextSteps
          patientId={patientId}
          next={loaded.dates.find(({ kind }) => kind === 'visit' || kind === 'booking')?.day ?? null}
          hasPieces={loaded.record.pieces.length > 0}
          mayWrite={mayWrite}
        />
      )}
      <ProtocolLine />
    </main>
  );
}

/** Pieces cut from the same ladder to the same figures and worn from the same day sit alike: one chart serves them all. */
function kindOf({ piece }: AnalysedPiece): string {
  return JSON.stringify([
    piece.limb,
    piece.side,
    piece.covers === 'measures' ? piece.garment?.form : null,
    piece.cutFrom,
    piece.covers,
    piece.reductionPct,
    piece.convention,
    piece.firstWorn,
  ]);
}

function firstOfItsKind(one: AnalysedPiece, index: number, all: readonly AnalysedPiece[]): boolean {
  return all.findIndex((other) => kindOf(other) === kindOf(one)) === index;
}
