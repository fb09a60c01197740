'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { cautionAbout } from '@/app/_cautions/caution-about';
import { heldNow, heldPiece, holdOn, readHandOver } from '@/app/_cautions/read-hand-over';
import { postedText } from '@/app/_form/posted';
import type { OrderAct } from '@/db/audit/audit-actions';
import type { HandOver } from '@/db/patients/holds';
import { orderOfSubmission, type PiecesOfOrder, reviseOrder } from '@/db/patients/orders';
import type { KeptPiece } from '@/db/patients/read-pieces';
import type { Therapist } from '@/db/therapist';
import { completeBegun } from '@/db/worklist/prompt-answers';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { liftedInWords, readLifted } from '@/lib/cautions/hold';
import { readPieceStep } from '@/lib/forms/read-piece-step';
import { isAwaited, isHeldBack } from '@/lib/garments/piece-stage';
import { asStop } from '@/lib/orders/order-questions';
import { mayCheck, piecesOfOrder, sentOrder } from '@/lib/orders/order-steps';
import type { Order } from '@/lib/record/order';
import { addDays, type CalendarDay, readDay } from '@/lib/units/calendar-day';
import { CHECKED, type LoadedOrder, loadOrder } from './load-order';
import { isAbout, noteGivenUp } from './prompts-of-order';

/** Why a step of an order was not taken: beside its box, or for the whole form; everything typed comes back. */
export type OrderStepState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

type Step = (loaded: LoadedOrder, typed: Readonly<Record<string, string>>, therapist: Therapist) => Next | Refusal;
type Refusal = { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };
type Next = {
  readonly kind: 'read';
  readonly handOver?: HandOver;
  readonly deed: OrderAct;
  readonly order: Order;
  readonly reason: string;
  readonly pieces?: PiecesOfOrder;
};

const FIGURES_CHANGED =
  'The visit was corrected since this page was opened. Nothing was saved; reload the page and read the figures again.';

const HAS_LEFT = 'This order was sent or cancelled already. Nothing was changed; reload the page.';

/** Takes one step of an order: checked by a second person, sent, all pieces delivered, cancelled. */
export async function moveOrderAction(_before: OrderStepState, form: FormData): Promise<OrderStepState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', orderId = '', revision = '', submissionId = '', step = '' } = typed;
  const loaded = await loadOrder(therapist, patientId, orderId);
  const take = STEPS[step];
  if (await orderOfSubmission(therapist, submissionId)) redirect(`/patients/${patientId}/orders/${orderId}`);
  if (!take || String(loaded.order.revision) !== revision)
    return {
      errors: { form: 'This order has changed since the page was opened. Nothing was saved; reload the page and look again.' },
      typed,
    };
  const next = take(loaded, typed, therapist);
  if (next.kind === 'refused') return { errors: next.errors, typed };
  const revised = await reviseOrder(therapist, orderId, Number(revision), { submissionId, ...next, order: contentOf(next.order) });
  if (revised.kind === 'held') return { errors: { form: heldNow(revised.stops) }, typed };
  if (revised.kind === 'conflict' || revised.kind === 'not-found')
    return { errors: { form: 'Somebody else was faster. Nothing was saved; reload the page and look again.' }, typed };
  if (next.deed === 'sent')
    await completeBegun(therapist, patientId, ['order'], (about) => isAbout(next.order, loaded.record.pieces, about));
  if (next.deed === 'cancelled' && loaded.order.state === 'proposed') await noteGivenUp(therapist, patientId, loaded, orderId);
  await refreshPatient(therapist, patientId, loaded.today);
  redirect(`/patients/${patientId}/orders/${orderId}`);
}

const STEPS: Readonly<Record<string, Step>> = {
  check: ({ order, figures, writtenBy }, typed, therapist): Next | Refusal => {
    if (order.state !== 'proposed') return { kind: 'refused', errors: { form: HAS_LEFT } };
    if (!figures || typed.visitRevision !== String(figures.visitRevision)) return { kind: 'refused', errors: { form: FIGURES_CHANGED } };
    if (!mayCheck(writtenBy, therapist.id))
      return { kind: 'refused', errors: { form: 'You wrote this order, so somebody else checks it. Nothing was saved.' } };
    const { visitRevision } = figures;
    const checked = { by: therapist.id, name: therapist.name, at: new Date().toISOString(), visitRevision };
    return { kind: 'read', deed: 'checked', order: { ...order, checked }, reason: CHECKED };
  },
  send: sendStep,
  deliver: ({ order, pieces, today, analysis }, typed): Next | Refusal => {
    const waiting = pieces.filter(isAwaited);
    const steps = waiting.map((piece) => ({ piece, read: readPieceStep('delivered', typed, piece, today) }));
    const refused = steps.find(({ read }) => read.kind === 'refused')?.read;
    const about = cautionAbout(analysis);
    const said = readHandOver(typed, holdOn(about, heldPiece(order), false), about);
    const errors = { ...(refused?.kind === 'refused' ? refused.errors : {}), ...said.errors };
    if (Object.keys(errors).length > 0) return { kind: 'refused', errors };
    const changed = steps.flatMap(({ piece, read }) =>
      read.kind === 'read'
        ? [{ pieceId: piece.pieceId, revision: piece.revision, piece: { ...piece, ...read.piece }, reason: read.reason }]
        : [],
    );
    return changed.length === 0
      ? { kind: 'refused', errors: { form: 'Every piece of this order is here already. Nothing was changed.' } }
      : { kind: 'read', deed: 'delivered', order, reason: 'delivered', pieces: { changed }, handOver: said.handOver };
  },
  cancel: ({ order, pieces, today }, typed): Next | Refusal => {
    const words = (typed.words ?? '').trim();
    if (words === '') return { kind: 'refused', errors: { words: 'Say why it is cancelled.' } };
    if (order.state === 'cancelled') return { kind: 'refused', errors: { form: 'This order is cancelled already. Nothing was changed.' } };
    if (order.state === 'ordered' && !pieces.some(toCome))
      return {
        kind: 'refused',
        errors: { form: 'Every piece has come, so nothing was cancelled. Take pieces out of use on their own pages instead.' },
      };
    const changed = pieces.filter(toCome).map((one) => calledOff(one, today, words));
    return { kind: 'read', deed: 'cancelled', order: { ...order, state: 'cancelled' }, reason: `cancelled: ${words}`, pieces: { changed } };
  },
};

function sendStep(
  { order, figures, check, open, today, record }: LoadedOrder,
  typed: Readonly<Record<string, string>>,
  therapist: Therapist,
): ReturnType<Step> {
  const errors: Record<string, string> = {};
  if (order.state !== 'proposed') return { kind: 'refused', errors: { form: HAS_LEFT } };
  if (!figures)
    return {
      kind: 'refused',
      errors: {
        form:
          order.covers === 'measures'
            ? 'The visit it is made to has no named measures of this garment any more. It was not sent: change the order first.'
            : 'The visit it is made to has no ladder of this limb any more. It was not sent: change the order first.',
      },
    };
  if (typed.visitRevision !== String(figures.visitRevision)) return { kind: 'refused', errors: { form: FIGURES_CHANGED } };
  const ordered = readDay(typed.ordered ?? '');
  if (ordered.kind !== 'read') errors.ordered = ordered.reason;
  else if (ordered.value > today) errors.ordered = 'This day has not come yet.';
  else if (ordered.value < order.cutFrom) errors.ordered = 'This is before it was measured.';
  const expectedText = (typed.expected ?? '').trim();
  const expected = expectedText === '' ? null : readDay(expectedText);
  if (expected && expected.kind !== 'read') errors.expected = expected.reason;
  else if (expected?.kind === 'read' && ordered.kind === 'read' && expected.value < ordered.value)
    errors.expected = 'This is before it was ordered.';
  const stops = open.filter(({ stop }) => stop).map(asStop);
  const { lifted, errors: held } = readLifted(typed, stops);
  Object.assign(errors, held);
  const by = { by: therapist.id, at: new Date().toISOString() };
  const overridden = lifted.map((one) => ({
    key: one.key,
    message: stops.find(({ key }) => key === one.key)?.message ?? '',
    answer: liftedInWords(one),
    ...by,
  }));
  const answered = open
    .filter(({ stop }) => !stop)
    .map(({ key, message }, index) => {
      const answer = (typed[`answer${index}`] ?? '').trim();
      if (typed[`question${index}`] !== key)
        errors.form = 'The questions have changed since the page was opened. It was not sent; read them again.';
      if (answer === '') errors[`answer${index}`] = 'Answer in a few words, or go back and mend it.';
      return { key, message, answer, ...by };
    });
  if (check === null && typed.unchecked !== 'yes')
    errors.unchecked = 'Nobody has checked the figures yet. Have a second person check them, or say that it goes out unchecked.';
  if (Object.keys(errors).length > 0 || ordered.kind !== 'read') return { kind: 'refused', errors };
  const due: CalendarDay = expected?.kind === 'read' ? expected.value : addDays(ordered.value, order.leadDays);
  const sent = sentOrder(order, { sent: figures, ordered: ordered.value, expected: due, answers: [...answered, ...overridden] });
  const added = piecesOfOrder(
    sent,
    record.pieces.map((one) => one.piece),
  ).map((piece) => ({ ...piece, cutFromVisitId: order.cutFromVisitId, retiredReason: null }));
  return { kind: 'read', deed: 'sent', order: sent, reason: 'sent', pieces: { added } };
}

/** On its way, or held back until it is released. */
const toCome = (piece: KeptPiece): boolean => isAwaited(piece) || isHeldBack(piece);

function calledOff(piece: KeptPiece, today: CalendarDay, words: string) {
  const gone = { ...piece, retired: today, retiredAs: 'stopped' as const, retiredReason: `order cancelled: ${words}` };
  return { pieceId: piece.pieceId, revision: piece.revision, piece: gone, reason: 'order cancelled' };
}

/** An order without what the database knows of it. */
function contentOf(order: Order): Order {
  const {
    orderId: _id,
    patientId: _patient,
    revision: _revision,
    author: _author,
    at: _at,
    reason: _reason,
    ...content
  } = order as LoadedOrder['order'];
  return content;
}
