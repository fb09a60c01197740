import { and, asc, desc, eq, exists, gt, inArray, isNull, or } from 'drizzle-orm';
import type { Order } from '@/lib/record/order';
import { getDatabase } from '../client';
import { garmentOrder, orderRevision, piece, pieceRevision, visit } from '../schema/schema';
import type { Therapist } from '../therapist';
import { isNotDead } from './course';
import { REVOKED } from './revoked';

/** An order as it stands now, or one of its earlier revisions. */
export type KeptOrder = Order & {
  readonly orderId: string;
  readonly patientId: string;
  readonly revision: number;
  readonly author: string;
  readonly at: Date;
  readonly reason: string | null;
};

const orderColumns = {
  orderId: garmentOrder.id,
  patientId: garmentOrder.patientId,
  revision: orderRevision.number,
  cutFromVisitId: orderRevision.cutFromVisitId,
  content: orderRevision.content,
  cutFrom: visit.day,
  author: orderRevision.author,
  at: orderRevision.at,
  reason: orderRevision.reason,
};

const isCurrent = and(eq(orderRevision.orderId, garmentOrder.id), eq(orderRevision.number, garmentOrder.revision));

/** An order points at a visit; its day is the day the visit has now. */
const cutVisit = eq(visit.id, orderRevision.cutFromVisitId);

type Row = Omit<KeptOrder, keyof Order> &
  Pick<Order, 'cutFrom'> & { readonly cutFromVisitId: string; readonly content: Omit<Order, 'cutFromVisitId'> };

function keptOrder({ content, ...row }: Row): KeptOrder {
  return { ...content, ...row };
}

/** Every order of a patient as it stands now, the newest first. */
export async function ordersOf(therapist: Therapist, patientId: string): Promise<readonly KeptOrder[]> {
  return ordersOfPatients(therapist, [patientId]);
}

/** Every order of these patients as it stands now, the newest of each first: one query. */
export async function ordersOfPatients(therapist: Therapist, patientIds: readonly string[]): Promise<readonly KeptOrder[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  const rows = await database
    .select(orderColumns)
    .from(garmentOrder)
    .innerJoin(orderRevision, isCurrent)
    .innerJoin(visit, cutVisit)
    .where(and(eq(garmentOrder.clinicId, therapist.clinicId), inArray(garmentOrder.patientId, [...patientIds])))
    .orderBy(desc(garmentOrder.number), asc(garmentOrder.id));
  return rows.map(keptOrder);
}

/** An order with every state it has been in, oldest first; undefined when the clinic has none of that id. */
export async function orderWithHistory(
  therapist: Therapist,
  orderId: string,
): Promise<{ readonly current: KeptOrder; readonly revisions: readonly KeptOrder[] } | undefined> {
  const database = await getDatabase();
  const rows = await database
    .select(orderColumns)
    .from(garmentOrder)
    .innerJoin(orderRevision, eq(orderRevision.orderId, garmentOrder.id))
    .innerJoin(visit, cutVisit)
    .where(and(eq(garmentOrder.clinicId, therapist.clinicId), eq(garmentOrder.id, orderId), gt(garmentOrder.revision, REVOKED)))
    .orderBy(asc(orderRevision.number));
  const revisions = rows.map(keptOrder);
  const current = revisions.at(-1);
  return current && { current, revisions };
}

/** The orders of a clinic that are not done, of patients who live: proposed, or sent with a piece still to come; oldest first, at most so many. */
export async function openOrders(therapist: Therapist, most: number): Promise<readonly KeptOrder[]> {
  const database = await getDatabase();
  const awaited = database
    .select({ id: piece.id })
    .from(piece)
    .innerJoin(pieceRevision, and(eq(pieceRevision.pieceId, piece.id), eq(pieceRevision.number, piece.revision)))
    .where(
      and(
        eq(piece.patientId, garmentOrder.patientId),
        eq(pieceRevision.orderId, garmentOrder.id),
        isNull(pieceRevision.delivered),
        isNull(pieceRevision.retired),
      ),
    );
  const rows = await database
    .select(orderColumns)
    .from(garmentOrder)
    .innerJoin(orderRevision, isCurrent)
    .innerJoin(visit, cutVisit)
    .where(
      and(
        isNotDead(garmentOrder.patientId),
        eq(garmentOrder.clinicId, therapist.clinicId),
        or(eq(garmentOrder.state, 'proposed'), and(eq(garmentOrder.state, 'ordered'), exists(awaited))),
      ),
    )
    .orderBy(asc(orderRevision.at), asc(garmentOrder.id))
    .limit(most);
  return rows.map(keptOrder);
}
