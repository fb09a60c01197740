'use server';

import { notFound, redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { heldNow } from '@/app/_cautions/read-hand-over';
import { postedText } from '@/app/_form/posted';
import { clinicOf } from '@/db/clinic/clinic';
import { revisePiece, savePiece } from '@/db/patients/pieces';
import { recordOf } from '@/db/patients/records';
import { refreshPatient } from '@/db/worklist/refresh-work';
import type { Stop } from '@/lib/cautions/hold';
import { PIECE_BOXES, type PieceBox, readPieceForm, type TypedPieceForm } from '@/lib/forms/read-piece-form';
import { cutLadders, cutMeasures } from './cut-ladders';

/** A refused piece: why beside each box, everything as typed, and a notice when somebody else was faster. */
export type PieceFormState = {
  readonly errors: Partial<Record<PieceBox, string>>;
  readonly typed: TypedPieceForm | null;
  readonly notice: string | null;
};

const LABEL_TAKEN = 'Another piece of this patient has this name by now. Give it the next one.';

function heldByCaution(stops: readonly Stop[]): string {
  if (stops.some(({ card }) => card === 'course')) return heldNow(stops);
  return `Held by a caution: ${stops.map(({ title }) => title).join('; ')}. Nothing was saved. Save the piece without first fit and first wear, and record these on its own page, where a hold can be lifted.`;
}

/** Adds a piece, or keeps a change of one as a new revision; nothing is overwritten. */
export async function savePieceAction(_before: PieceFormState, form: FormData): Promise<PieceFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const boxes = postedText(form);
  const text = (name: string): string => boxes[name] ?? '';
  const typed = Object.fromEntries(PIECE_BOXES.map((box) => [box, text(box)])) as TypedPieceForm;
  const patientId = text('patientId');
  const pieceId = text('pieceId');
  const record = await recordOf(therapist, patientId);
  if (!record) notFound();
  const taken = record.pieces.filter((one) => one.pieceId !== pieceId).map((one) => one.piece);
  const before = record.pieces.find((one) => one.pieceId === pieceId);
  const read = readPieceForm(typed, before?.covers === 'measures' ? cutMeasures(record) : cutLadders(record), taken);
  if (read.kind === 'refused') return { errors: read.errors, typed, notice: null };
  const piece = { ...before, ...read.piece, cutFromVisitId: read.ladder.visitId, retiredReason: read.retiredReason };
  const submissionId = text('submissionId') || crypto.randomUUID();
  if (pieceId === '') {
    const saved = await savePiece(therapist, { patientId, submissionId, piece });
    if (saved.kind === 'not-found') notFound();
    if (saved.kind === 'held') return { errors: {}, typed, notice: heldByCaution(saved.stops) };
    if (saved.kind === 'label-taken') return { errors: { piece: LABEL_TAKEN }, typed, notice: null };
    await refreshPatient(therapist, patientId, todayIn((await clinicOf(therapist)).timeZone));
    redirect(`/patients/${patientId}`);
  }
  const reason = text('reason').trim() || 'changed';
  const revised = await revisePiece(therapist, pieceId, Number(text('revision')), { submissionId, piece, reason });
  if (revised.kind === 'not-found') notFound();
  if (revised.kind === 'held') return { errors: {}, typed, notice: heldByCaution(revised.stops) };
  if (revised.kind === 'label-taken') return { errors: { piece: LABEL_TAKEN }, typed, notice: null };
  if (revised.kind === 'conflict') {
    return {
      errors: {},
      typed,
      notice:
        'Somebody else changed this piece while you had it open. Nothing was overwritten: open it in another tab, compare, and save again from there.',
    };
  }
  await refreshPatient(therapist, patientId, todayIn((await clinicOf(therapist)).timeZone));
  redirect(`/patients/${patientId}`);
}
