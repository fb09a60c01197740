import type { PartFigure, ServicePart } from '@/lib/service/service-parts';
import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { patient } from './schema-records';

const { table, id, text, json, decimal, uniqueIndex } = columns;

/** What a patient adds to the service counts of the clinic, as it was last added: taken off again when it is made anew. */
export const servicePart = table('service_part', {
  patientId: text()
    .primaryKey()
    .references(() => patient.id),
  clinicId: ofClinic(),
  parts: json<readonly ServicePart[]>().notNull(),
});

/**
 * The parts of all patients of a clinic added up, one row a figure, month and kind; kept in step by differences. The sums are whole numbers of the order `partsOfPatient` gives
 * them, as decimals, because squares of days pass two thousand million.
 */
export const serviceCount = table(
  'service_count',
  {
    id: id(),
    clinicId: ofClinic(),
    figure: text().$type<PartFigure>().notNull(),
    /** A month; of the figure `day` a day. */
    at: text().notNull(),
    of: text().notNull(),
    sum0: decimal().notNull(),
    sum1: decimal().notNull(),
    sum2: decimal().notNull(),
    sum3: decimal().notNull(),
    sum4: decimal().notNull(),
    sum5: decimal().notNull(),
    sum6: decimal().notNull(),
  },
  (row) => [uniqueIndex('service_count_part').on(row.clinicId, row.figure, row.at, row.of)],
);
