import { limit } from './limit';

const CODE = 'Records Management Code of Practice 2021 (NHS England), appendix II; the law where the clinic is comes first.';

/** Limits of keeping: how long a record stays before it may be erased without a reason that outweighs the duty to keep it. */
export const RETENTION_LIMITS = {
  keepYears: limit(8, 'years', 'published', CODE, 'Years an adult’s record is kept after the last visit'),
  keepChildUntilYears: limit(25, 'years', 'published', CODE, 'Birthday until which a child’s record is kept'),
  keepSeventeenUntilYears: limit(26, 'years', 'published', CODE, 'Birthday until which the record of someone last seen at 17 is kept'),
} as const;
