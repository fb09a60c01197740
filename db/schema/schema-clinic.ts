import type { LengthUnit } from '@/lib/units/length';
import type { MassUnit } from '@/lib/units/mass';
import { columns } from '../sql/columns';

const { table, id, text, wholeNumber, json, moment, index, uniqueIndex } = columns;

/** A clinic: everything else belongs to exactly one. */
export const clinic = table('clinic', {
  id: id(),
  name: text().notNull(),
  subtitle: text().notNull(),
  lengthUnit: text().$type<LengthUnit>().notNull(),
  massUnit: text().$type<MassUnit>().notNull(),
  timeZone: text().notNull(),
});

/** Whose a row is: every table but the clinic's own carries it. */
export const ofClinic = () =>
  text()
    .notNull()
    .references(() => clinic.id);

/** A change of one setting. Never overwritten; the latest of a key counts. */
export const clinicSetting = table(
  'clinic_setting',
  {
    id: id(),
    clinicId: ofClinic(),
    key: text().notNull(),
    value: json<unknown>(),
    by: text().notNull(),
    at: moment().notNull(),
    reason: text(),
  },
  (row) => [index('clinic_setting_latest').on(row.clinicId, row.key, row.at)],
);

/** A row of content in its deed: table, id, and the digest of its words (`touched-rows.ts`); null when it is gone. */
export type SealedRow = readonly [table: string, id: string, digest: string | null];

/**
 * Who did what and when; one row for each write, in the same transaction. Never changed, but that the detail of an erased patient goes.
 *
 * Each row is a link of its clinic's chain (`audit-chain.ts`). `detail` and the rows of content enter the chain by salted digests only, so
 * that detail and salt can be blanked on an erasure while the chain still holds.
 */
export const audit = table(
  'audit',
  {
    id: id(),
    clinicId: ofClinic(),
    at: moment().notNull(),
    who: text().notNull(),
    action: text().notNull(),
    subjectKind: text().notNull(),
    subjectId: text().notNull(),
    detail: json<Readonly<Record<string, unknown>>>(),
    /** Place in the clinic's chain, from 1. */
    number: wholeNumber(),
    salt: text(),
    detailDigest: text(),
    link: text(),
    /** The rows of content that the deed wrote, each by its digest; null when it wrote none. */
    contents: json<readonly SealedRow[]>(),
    /** The erasure that blanked the detail. */
    erasureId: text(),
  },
  (row) => [
    index('audit_when').on(row.clinicId, row.at),
    index('audit_subject').on(row.subjectKind, row.subjectId),
    uniqueIndex('audit_number').on(row.clinicId, row.number),
  ],
);
