import { type Limit, limit } from './limit';

/** Limits of what a family is given and tells. */
export const FAMILY_LIMITS = {
  familyRepliesADay: limit(
    4,
    'replies',
    'clinic default',
    'A family tells of a day once or twice; a link in wrong hands fills no list. No figure is published.',
    'Replies that one link to a family page takes in a day',
  ),
  wearToldLowPct: limit(
    75,
    '%',
    'clinic default',
    'Hours as told are no measurement, and no threshold for them is published.',
    'Share of the planned hours below which hours told by the family are a line to look at',
  ),
  wearInSteps: limit(
    4,
    'steps',
    'clinic default',
    'Hours are built up over one to two weeks (common practice); a few steps are read at one look.',
    'Steps in which the hours of a wear-in are printed on the family page',
  ),
} as const satisfies Record<string, Limit>;
