import { type Limit, limit } from './limit';

/** Limits of the calendar: days of notice, of wear-in, of review. */
export const CALENDAR_LIMITS = {
  measuringDays: limit(
    7,
    'days',
    'clinic default',
    'Time to book a visit and measure before an order leaves.',
    'Days allowed for measuring before an order',
  ),
  orderLadderDays: limit(
    42,
    'days',
    'clinic default',
    'One area guideline asks for a measurement under 6 months old (venous hosiery, United Kingdom); a growing child needs a fresher one.',
    'Age of a ladder from which an order asks for a new one',
  ),
  wearInFirstHours: limit(
    2,
    'h',
    'common practice',
    'Hours are built up: 2 h to 23 h over one to two weeks for scars (from memory), a few hours at first for lymphoedema.',
    'Hours of wear on the first day of the wear-in',
  ),
  wearInFullHours: limit(
    23,
    'h',
    'common practice',
    '23 h a day for scars; day wear only where the prescriber says so.',
    'Hours of wear a day at the end of the wear-in',
  ),
  wearInDays: limit(14, 'days', 'common practice', 'Full hours within one to two weeks.', 'Days of the wear-in'),
  earlyCallDays: limit(
    7,
    'days',
    'common practice',
    'A call or a visit within days to two weeks of first wear.',
    'Days after first wear of the early call',
  ),
  endOfLifeLookDays: limit(
    14,
    'days',
    'clinic default',
    'A fortnight of notice before the order-by day.',
    'Days before the order-by day that a prompt opens',
  ),
  firstFitDays: limit(
    14,
    'days',
    'common practice',
    'A fitting check within days to two weeks of first wear.',
    'Days after first wear before a missing first-fit check is asked about',
  ),
  grownScarReviewDays: limit(
    84,
    'days',
    'clinic default',
    'Pressure for scars is renewed every 2 to 4 months, and falls by a third in 3 (Macintyre and Baird 2006, from memory).',
    'Days between visits of a grown person with scars',
  ),
  reductionReviewDays: limit(
    7,
    'days',
    'clinic default',
    'Intensive treatment took 11 days in hospital to some weeks (Vignes 2007); whether it has levelled off shows in ladders days apart.',
    'Days between ladders while a limb is reduced',
  ),
  unsettledReviewDays: limit(
    14,
    'days',
    'clinic default',
    'A limb that is not stable yet is measured again within two weeks, so that the garment is cut when it is; no interval is published.',
    'Days between visits while somebody gets ready for a garment or wears an interim one',
  ),
  newPieceReviewDays: limit(
    42,
    'days',
    'clinic default',
    'Six weeks after a new piece, then the usual interval; stable lymphoedema is reviewed every 6 to 12 months.',
    'Days from first wear of a new piece to the review of a grown person with lymphoedema',
  ),
} as const satisfies Record<string, Limit>;
