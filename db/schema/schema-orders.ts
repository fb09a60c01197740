import type { Order, OrderState } from '@/lib/record/order';
import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { ofPatient, signature, visit } from './schema-records';

const { table, id, text, wholeNumber, json, index, uniqueIndex } = columns;

/** An order's head: whose, its number among that patient's orders, where it stands, and which revision counts. */
export const garmentOrder = table(
  'garment_order',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    number: wholeNumber().notNull(),
    state: text().$type<OrderState>().notNull(),
    revision: wholeNumber().notNull(),
  },
  (row) => [uniqueIndex('garment_order_number').on(row.patientId, row.number), index('garment_order_state').on(row.clinicId, row.state)],
);

/** What was known of an order from one moment to the next; the sent figures stand inside. Never changed. */
export const orderRevision = table(
  'order_revision',
  {
    id: id(),
    clinicId: ofClinic(),
    orderId: text()
      .notNull()
      .references(() => garmentOrder.id),
    number: wholeNumber().notNull(),
    cutFromVisitId: text()
      .notNull()
      .references(() => visit.id),
    content: json<Omit<Order, 'cutFromVisitId'>>().notNull(),
    ...signature(),
  },
  (row) => [
    uniqueIndex('order_revision_number').on(row.orderId, row.number),
    uniqueIndex('order_revision_submission').on(row.clinicId, row.submissionId),
  ],
);
