import { and, eq, max } from 'drizzle-orm';
import type { Order } from '@/lib/record/order';
import type { OrderAct } from '../audit/audit-actions';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { garmentOrder, orderRevision } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { restingStop } from './course';
import { dayOf, type HandOver, type Held, handOverSteps, liftedBy, stopsNotLifted, writeUnlessHeld } from './holds';
import { invalidateWork } from './invalidate-work';
import { patientHead } from './patients';
import { newPiece, nextRevision, type TypedPiece } from './pieces';
import { type KeptOrder, orderWithHistory } from './read-orders';
import { keptVisit } from './read-visits';

/** How the saving of an order ended; held: by a course that rests. */
export type OrderSaved = { readonly kind: 'saved' | 'already-saved'; readonly orderId: string } | { readonly kind: 'not-found' } | Held;

/** How a change of an order ended; in a conflict the other version is there, held by a caution its stops: nothing was written. */
export type OrderRevised = OrderSaved | { readonly kind: 'conflict'; readonly theirs: KeptOrder };

/** What goes with a change of an order in the same write: pieces that come into being, and pieces that change. */
export type PiecesOfOrder = {
  readonly added?: readonly TypedPiece[];
  readonly changed?: readonly {
    readonly pieceId: string;
    readonly revision: number;
    readonly piece: TypedPiece;
    readonly reason: string;
  }[];
};

/** A change of an order: what it is, its reason in words, pieces that go with it, and what was said of cautions at a delivery. */
export type OrderEntry = {
  readonly submissionId: string;
  readonly deed: OrderAct;
  readonly order: Order;
  readonly reason: string;
  readonly pieces?: PiecesOfOrder;
  readonly handOver?: HandOver;
};

/** Two people may propose at once; each number is given once, the slower takes the next. */
const TRIES = 5;

/** Proposes an order for a patient, cut from one of that patient's visits. The same submission sent twice makes one. */
export async function proposeOrder(
  therapist: Therapist,
  entry: { readonly patientId: string; readonly submissionId: string; readonly order: Omit<Order, 'order'> },
  at = new Date(),
): Promise<OrderSaved> {
  assertMayWrite(therapist);
  const { patientId, submissionId } = entry;
  if (!(await patientHead(therapist, patientId))) return { kind: 'not-found' };
  if ((await keptVisit(therapist, entry.order.cutFromVisitId))?.patientId !== patientId) return { kind: 'not-found' };
  for (let attempt = 0; attempt < TRIES; attempt++) {
    const already = await orderOfSubmission(therapist, submissionId);
    if (already) return { kind: 'already-saved', orderId: already };
    const stops = await restingStop(therapist, patientId, dayOf(at));
    if (stops.length > 0) return { kind: 'held', stops };
    const number = (await lastNumber(therapist, patientId)) + 1;
    const order: Order = { ...entry.order, order: number };
    const { orderId, statements } = newOrder(therapist, { patientId, submissionId, order }, at);
    const written = await inTransaction([...statements, invalidateWork(therapist, patientId)]);
    if (written.kind === 'written') return { kind: 'saved', orderId };
  }
  throw new Error('The order found no number of its own.');
}

/** The steps that add an order: its head, its first revision, its note in the audit. */
export function newOrder(
  therapist: Therapist,
  { patientId, submissionId, order }: { readonly patientId: string; readonly submissionId: string; readonly order: Order },
  at: Date,
): { readonly orderId: string; readonly statements: readonly Statement[] } {
  const orderId = crypto.randomUUID();
  const head = { id: orderId, clinicId: therapist.clinicId, patientId, number: order.order, state: order.state, revision: 1 };
  const statements: Statement[] = [
    (tx) => tx.insert(garmentOrder).values(head).onConflictDoNothing().returning({ id: garmentOrder.id }),
    insertRevision(therapist, orderId, 1, submissionId, order, null, at),
    auditEntry(therapist, { action: 'order proposed', subjectKind: 'order', subjectId: orderId, detail: { patientId } }, at),
  ];
  return { orderId, statements };
}

/** Changes an order by a new revision with its reason in words, and its pieces with it: all or nothing. */
export async function reviseOrder(
  therapist: Therapist,
  orderId: string,
  expectedRevision: number,
  entry: OrderEntry,
  at = new Date(),
): Promise<OrderRevised> {
  assertMayWrite(therapist);
  const before = await orderWithHistory(therapist, orderId);
  if (!before) return { kind: 'not-found' };
  const { patientId } = before.current;
  if ((await keptVisit(therapist, entry.order.cutFromVisitId))?.patientId !== patientId) return { kind: 'not-found' };
  const { submissionId, order, deed, reason, handOver } = entry;
  const already = await orderOfSubmission(therapist, submissionId);
  if (already) return { kind: 'already-saved', orderId: already };
  const detail = { revision: expectedRevision + 1, reason };
  const next = expectedRevision + 1;
  const lifted = deed === 'sent' ? liftedBy(order.questions) : (handOver?.lifted ?? []);
  const notLifted = async () => {
    if (deed === 'sent' || deed === 'delivered') return stopsNotLifted(therapist, patientId, order, lifted, at);
    return deed === 'cancelled' ? [] : restingStop(therapist, patientId, dayOf(at));
  };
  const written = await writeUnlessHeld(therapist, patientId, notLifted, [
    (tx) =>
      tx
        .update(garmentOrder)
        .set({ revision: next, state: order.state })
        .where(
          and(eq(garmentOrder.id, orderId), eq(garmentOrder.clinicId, therapist.clinicId), eq(garmentOrder.revision, expectedRevision)),
        )
        .returning({ id: garmentOrder.id }),
    insertRevision(therapist, orderId, next, submissionId, order, reason, at),
    ...(entry.pieces?.added ?? []).flatMap((piece, index) => {
      const own = { ...piece, orderId };
      return newPiece(therapist, patientId, { submissionId: `${submissionId}/${index}`, piece: own }, at).statements;
    }),
    ...(entry.pieces?.changed ?? []).flatMap(({ pieceId, revision, piece, reason: why }) =>
      nextRevision(therapist, pieceId, revision, { submissionId: `${submissionId}/${pieceId}`, piece, reason: why }, at),
    ),
    ...(handOver ? handOverSteps(therapist, patientId, `order ${order.order}`, handOver, at) : []),
    auditEntry(therapist, { action: `order ${deed}`, subjectKind: 'order', subjectId: orderId, detail }, at),
  ]);
  if (written.kind === 'held') return written;
  if (written.kind === 'written') return { kind: 'saved', orderId };
  const meanwhile = await orderOfSubmission(therapist, submissionId);
  if (meanwhile) return { kind: 'already-saved', orderId: meanwhile };
  const now = await orderWithHistory(therapist, orderId);
  return now ? { kind: 'conflict', theirs: now.current } : { kind: 'not-found' };
}

function insertRevision(
  therapist: Therapist,
  orderId: string,
  number: number,
  submissionId: string,
  order: Order,
  reason: string | null,
  at: Date,
): Statement {
  const { cutFromVisitId, ...content } = order;
  const signature = { author: therapist.id, at, reason, submissionId };
  const row = { id: crypto.randomUUID(), clinicId: therapist.clinicId, orderId, number, cutFromVisitId, content, ...signature };
  return (tx) => tx.insert(orderRevision).values(row).onConflictDoNothing().returning({ id: orderRevision.id });
}

async function lastNumber(therapist: Therapist, patientId: string): Promise<number> {
  const database = await getDatabase();
  const [found] = await database
    .select({ last: max(garmentOrder.number) })
    .from(garmentOrder)
    .where(and(eq(garmentOrder.clinicId, therapist.clinicId), eq(garmentOrder.patientId, patientId)));
  return found?.last ?? 0;
}

/** The order that a submission made or changed, if it did: tells a form sent twice from a new one. */
export async function orderOfSubmission(therapist: Therapist, submissionId: string): Promise<string | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select({ orderId: orderRevision.orderId })
    .from(orderRevision)
    .where(and(eq(orderRevision.clinicId, therapist.clinicId), eq(orderRevision.submissionId, submissionId)));
  return found?.orderId;
}
