import { z } from 'zod';

/** How a spreadsheet is laid out: a row a measured place; a column a visit with places down the side; a row a visit with places across. */
export const LAYOUTS = ['rungs', 'places-down', 'visits-down'] as const;
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
});
export type Mapping = z.infer<typeof MAPPING>;
