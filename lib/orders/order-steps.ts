import type { OrderChoice } from '../forms/read-order-form';
import { isAtHand, isAwaited, isHeldBack } from '../garments/piece-stage';
import type { AllowanceDecision, AnsweredQuestion, Order, PersonsCheck, SentFigures } from '../record/order';
import type { Piece, Visit } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';
import type { OrderQuestion } from './order-questions';
import { furtherLadders, measuresOfOrder } from './order-set';

/** An order as first proposed: what was chosen, nothing sent, nobody has checked it. */
export function proposedOrder(
  choice: OrderChoice,
  cutFromVisitId: string,
  proposed: AllowanceDecision['proposed'],
  further: NonNullable<AllowanceDecision['further']> = [],
): Omit<Order, 'order'> {
  const { decided, ...rest } = choice;
  const notYet = { questions: [], ordered: null, expected: null, sent: null, checked: null };
  return {
    ...rest,
    ...notYet,
    state: 'proposed',
    cutFromVisitId,
    allowance: { proposed, ...(further.length > 0 ? { further } : {}), decided },
  };
}

/** The questions of an order that nobody has answered yet. A question whose data changed has another key and is open again. */
export function unansweredQuestions(asked: readonly OrderQuestion[], order: Pick<Order, 'questions'>): OrderQuestion[] {
  return asked.filter((one) => !order.questions.some((answered) => answered.key === one.key));
}

/**
 * What the garment is made to, frozen as it stands at the visit: the ladder of the order's limb, the further ladders and named measures of its
 * set as far as they were taken, what was measured beside them; undefined when the order's own limb was not taped, or of a garment made to named
 * measures alone none was taken.
 */
export function figuresToSend(order: Order, visit: Visit & { readonly revision: number }): SentFigures | undefined {
  const ladder = visit.ladders.find((one) => one.limb === order.limb && one.side === order.side);
  const byMeasures = order.covers === 'measures';
  if (!ladder && !byMeasures) return undefined;
  const { day, measurer, height, weight, readings, revision: visitRevision } = visit;
  const further = byMeasures ? [] : furtherLadders(order, visit);
  const measures = measuresOfOrder(order, visit);
  if (byMeasures && measures.length === 0) return undefined;
  const set = { ...(further.length > 0 ? { further } : {}), ...(measures.length > 0 ? { measures } : {}) };
  return { day, visitRevision, measurer, ...(ladder && !byMeasures ? { ladder } : {}), ...set, readings: readings ?? [], height, weight };
}

/** The order as it leaves: figures frozen, every question answered, checked by a second person or marked unchecked. */
export function sentOrder(
  order: Order,
  leaving: {
    readonly sent: SentFigures;
    readonly ordered: CalendarDay;
    readonly expected: CalendarDay;
    readonly answers: readonly AnsweredQuestion[];
  },
): Order {
  const { sent, ordered, expected, answers } = leaving;
  return {
    ...order,
    state: 'ordered',
    sent,
    ordered,
    expected,
    questions: [...order.questions, ...answers],
    checked: standingCheck(order, sent) ?? 'unchecked',
  };
}

/**
 * Whether a person may be the second to check: not the one who wrote the order as it stands.
 *
 * Source: a second person's check of copied figures (common practice); one person reads over the own slip.
 */
export function mayCheck(writtenBy: string, person: string): boolean {
  return writtenBy !== person;
}

/**
 * The check that holds for figures: a person's, of just that state of the visit. After a correction of the visit nobody has checked them.
 *
 * Example: checked at state 1 of the visit, corrected to state 2: null.
 */
export function standingCheck(order: Pick<Order, 'checked'>, figures: Pick<SentFigures, 'visitRevision'> | undefined): PersonsCheck | null {
  const { checked } = order;
  return checked && checked !== 'unchecked' && checked.visitRevision === figures?.visitRevision ? checked : null;
}

/** The pieces an order makes, each a record of its own, named by the next free numbers; the last of them held back where the order says so. */
export function piecesOfOrder(order: Order, taken: readonly string[]): Piece[] {
  const last = Math.max(0, ...taken.filter((label) => /^\d{1,6}$/.test(label)).map(Number));
  const { limb, side, covers, cutFrom, reductionPct, convention, lifeDays, leadDays, garment, expected } = order;
  const atOnce = order.quantity - (order.heldBack ?? 0);
  const held = { expected: null, kept: [{ from: order.ordered ?? cutFrom, as: 'held back' as const }] };
  return Array.from({ length: order.quantity }, (_, index) => ({
    piece: String(last + 1 + index),
    limb,
    side,
    covers,
    cutFrom,
    reductionPct,
    convention,
    allowance: order.allowance.decided,
    firstWorn: null,
    firstFit: null,
    lifeDays,
    leadDays,
    retired: null,
    garment,
    expected,
    delivered: null,
    ...(index < atOnce ? {} : held),
  }));
}

/** Where an order stands by its pieces: delivered when every one that was not called off has come; one held back has not. */
export function orderStage(order: Order, pieces: readonly Piece[]): Order['state'] | 'partly delivered' | 'delivered' {
  if (order.state !== 'ordered') return order.state;
  const waiting = pieces.filter((one) => isAwaited(one) || isHeldBack(one)).length;
  const came = pieces.filter(isAtHand).length;
  if (waiting === 0 && came > 0) return 'delivered';
  return came > 0 ? 'partly delivered' : 'ordered';
}
