'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { cautionAbout } from '@/app/_cautions/caution-about';
import { heldNow, heldPiece, holdOn, readHandOver } from '@/app/_cautions/read-hand-over';
import { postedText } from '@/app/_form/posted';
import { loadPatient } from '@/app/_record/load-patient';
import { handsOver } from '@/db/patients/holds';
import { pieceOfSubmission, revisePiece } from '@/db/patients/pieces';
import { completeBegun } from '@/db/worklist/prompt-answers';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { PIECE_STEPS, type PieceStep, readPieceStep } from '@/lib/forms/read-piece-step';
import { againstRelease } from '@/lib/orders/against-release';
import type { PromptAction } from '@/lib/prompts/prompt';

/** Why a step of a piece was not taken: beside its box, or for the whole form; everything typed comes back. */
export type PieceStepState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

/** What a step of a piece brings to its end. */
const DONE_BY_STEP: Partial<Record<PieceStep, readonly PromptAction[]>> = {
  release: ['release'],
  'first-fit': ['first-fit'],
  'let-out': ['let-out'],
};

/** Takes one step in the life of a piece as a new revision; nothing is overwritten. A remake goes on to a new order when asked to. */
export async function stepPieceAction(_before: PieceStepState, form: FormData): Promise<PieceStepState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', pieceId = '', revision = '', submissionId = '' } = typed;
  if (await pieceOfSubmission(therapist, submissionId)) redirect(`/patients/${patientId}/pieces/${pieceId}`);
  const { record, analysis, today } = await loadPatient(therapist, patientId);
  const piece = record.pieces.find((one) => one.pieceId === pieceId);
  const step = PIECE_STEPS.find((one) => one === typed.step);
  if (!piece || !step || String(piece.revision) !== revision)
    return {
      errors: { form: 'This piece has changed since the page was opened. Nothing was saved; reload the page and look again.' },
      typed,
    };
  const against = step === 'release' ? againstRelease(piece, record, analysis.policy, today) : [];
  const read = readPieceStep(step, typed, piece, today, against);
  if (read.kind === 'refused') return { errors: read.errors, typed };
  const next = { ...piece, ...read.piece };
  const about = cautionAbout(analysis);
  const said = handsOver(piece, next) ? readHandOver(typed, holdOn(about, heldPiece(piece), step !== 'delivered'), about) : undefined;
  if (said && Object.keys(said.errors).length > 0) return { errors: said.errors, typed };
  const entry = { submissionId, piece: next, reason: read.reason, ...(said ? { handOver: said.handOver } : {}) };
  const revised = await revisePiece(therapist, pieceId, piece.revision, entry);
  if (revised.kind === 'held') return { errors: { form: heldNow(revised.stops) }, typed };
  if (revised.kind === 'conflict' || revised.kind === 'not-found' || revised.kind === 'label-taken')
    return { errors: { form: 'Somebody else was faster. Nothing was saved; reload the page and look again.' }, typed };
  await completeBegun(therapist, patientId, DONE_BY_STEP[step] ?? [], (about) => about.piece === piece.piece);
  await refreshPatient(therapist, patientId, today);
  redirect(
    typed.anew === 'yes' && next.fit?.outcome === 'remake'
      ? `/patients/${patientId}/orders/new?after=${encodeURIComponent(piece.piece)}&reason=remake`
      : `/patients/${patientId}/pieces/${pieceId}`,
  );
}
