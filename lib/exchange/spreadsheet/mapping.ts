import { z } from 'zod';

/**
 * How a spreadsheet is laid out: a row a measured place; a column a visit with places down the side; a row a visit with places across;
 * `long` is a row a measured place under headings of the clinic's own.
 */
export const LAYOUTS = ['rungs', 'places-down', 'visits-down', 'long'] as const;
export type Layout = (typeof LAYOUTS)[number];

/** The order of the parts of a day. */
const DAY_ORDERS = ['ymd', 'dmy', 'mdy'] as const;
export type DayOrder = (typeof DAY_ORDERS)[number];

/** What a column holds. `place` is the side list of places, or a place of a ladder; `visit` is one visit's figures. */
export const ROLES = [
  'ignore',
  'reference',
  'born',
  'sex',
  'day',
  'time',
  'limb',
  'side',
  'height',
  'weight',
  'posture',
  'measurer',
  'note',
  'place',
  'visit',
  'distance',
  'girth',
  'unit',
  'landmark',
] as const;
export type Role = (typeof ROLES)[number];

/** What a reader of a spreadsheet must be told, beside what the table says itself. Empty texts are answers still to be given. */
export const MAPPING = z.object({
  layout: z.enum(LAYOUTS),
  dayOrder: z.enum(DAY_ORDERS).nullable(),
  unit: z.enum(['in', 'cm', '']),
  heightUnit: z.enum(['in', 'cm', '']),
  weightUnit: z.enum(['kg', 'lb', '']),
  reference: z.string(),
  born: z.string(),
  sex: z.enum(['F', 'M', 'X', '']),
  diagnosisGroup: z.string(),
  limb: z.enum(['leg', 'arm', '']),
  side: z.enum(['left', 'right', '']),
  affected: z.enum(['left', 'right', 'both', 'neither']),
  zero: z.string(),
  roles: z.array(z.enum(ROLES)),
  /** Years of two figures are the last year that ends so and is not after this one; null where nobody has said. */
  lastYear: z.number().int().min(1999).max(2199).nullable().default(null),
  /** `thousandths` puts back a point that a spreadsheet took for thousands: `200025` is 200.025. */
  figures: z.enum(['as-written', 'thousandths']).default('as-written'),
});
export type Mapping = z.infer<typeof MAPPING>;
