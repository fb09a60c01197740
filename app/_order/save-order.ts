'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { heldNow } from '@/app/_cautions/read-hand-over';
import { postedText } from '@/app/_form/posted';
import { cutLadders, cutMeasures } from '@/app/_piece/cut-ladders';
import { type LoadedPatient, loadPatient } from '@/app/_record/load-patient';
import { ownPartsOf } from '@/db/clinic/own-parts';
import { proposeOrder, reviseOrder } from '@/db/patients/orders';
import { orderWithHistory } from '@/db/patients/read-orders';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { readOrderForm, type TypedOrderForm } from '@/lib/forms/read-order-form';
import type { OwnForm } from '@/lib/garment-forms/garment-catalogue';
import { formsOffered } from '@/lib/garment-forms/own-form';
import { proposedOrder } from '@/lib/orders/order-steps';
import { furtherRoom, previewPiece, proposedRoom } from '@/lib/orders/preview-piece';
import { noteBegun } from './prompts-of-order';
import { roomAsTyped } from './room-as-typed';
import { roomInWords } from './start-order';

/** A refused order: why beside each box, everything as typed, and a notice when somebody else was faster. */
export type OrderFormState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: TypedOrderForm | null;
  readonly notice: string | null;
  /** The room that the engine proposes for the figures as typed, when that was asked; nothing was saved. */
  readonly room?: string;
};

/** Proposes an order, or changes one that has not been sent; what the engine proposes as room goes on record beside what was decided. */
export async function saveOrderAction(_before: OrderFormState, form: FormData): Promise<OrderFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', orderId = '', revision = '', submissionId = '' } = typed;
  const loaded = await loadPatient(therapist, patientId);
  const { record, analysis, today } = loaded;
  const before = orderId === '' ? undefined : await orderWithHistory(therapist, orderId);
  const ownForms = formsOffered((await ownPartsOf(therapist)).forms, before?.current.garment);
  if (typed.show === 'room') return showRoom(typed, ownForms, loaded);
  const read = readOrderForm(typed, [...cutLadders(record), ...cutMeasures(record)], ownForms);
  if (read.kind === 'refused') return { errors: read.errors, typed, notice: null };
  const proposed = proposedRoom(previewPiece(record, read.choice, analysis.policy, today).piece);
  const cut = { ...read.choice, cutFromVisitId: read.ladder.visitId };
  const further = furtherRoom(record, cut, analysis.policy, today);
  const content = proposedOrder(read.choice, read.ladder.visitId, proposed, further);
  if (orderId === '') {
    const saved = await proposeOrder(therapist, { patientId, submissionId, order: content });
    if (saved.kind === 'not-found') return { errors: {}, typed, notice: 'This patient or visit is not in your clinic. Nothing was saved.' };
    if (saved.kind === 'held') return { errors: {}, typed, notice: heldNow(saved.stops) };
    await noteBegun(therapist, patientId, loaded, content);
    await refreshPatient(therapist, patientId, today);
    redirect(`/patients/${patientId}/orders/${saved.orderId}`);
  }
  if (before?.current.state !== 'proposed' || before.current.patientId !== patientId)
    return { errors: {}, typed, notice: 'This order has left or was cancelled by now. Nothing was changed; start a new one instead.' };
  const order = { ...content, order: before.current.order, questions: before.current.questions };
  const revised = await reviseOrder(therapist, orderId, Number(revision), { submissionId, order, deed: 'changed', reason: 'changed' });
  if (revised.kind === 'held') return { errors: {}, typed, notice: heldNow(revised.stops) };
  if (revised.kind === 'conflict')
    return {
      errors: {},
      typed,
      notice:
        'Somebody else changed this order while you had it open. Nothing was overwritten: open it in another tab, compare, and save again from there.',
    };
  await refreshPatient(therapist, patientId, today);
  redirect(`/patients/${patientId}/orders/${orderId}`);
}

/** What the engine proposes as room for what stands in the form, as far as room hangs on it. */
function showRoom(typed: TypedOrderForm, forms: readonly OwnForm[], loaded: LoadedPatient): OrderFormState {
  const { record } = loaded;
  const found = roomAsTyped(typed, [...cutLadders(record), ...cutMeasures(record)], forms, loaded);
  if (found.kind === 'refused') return { errors: found.errors, typed, notice: null };
  return { errors: {}, typed, notice: null, room: roomInWords(found.room, found.ladder.unit) };
}
