import { type Limit, limit } from './limit';

/** Limits of fabric: how much tension wear takes, how tension follows strain, what a sensor can tell. */
export const FABRIC_LIMITS = {
  scarLossLowPct: limit(
    15,
    '%',
    'published',
    'Garments of grown people with burns: 15.3 → 9.9 mmHg on scar (35 %) and 13.4 → 9.2 on skin (31 %) in 3 months (J Burn Care Res 2020, abstract); the reach about the mean is a clinic default.',
    'Tension a scar garment loses in 90 worn days, least',
  ),
  scarLossHighPct: limit(
    50,
    '%',
    'published',
    'The same study: the spread between garments was two thirds of the mean; the reach about the mean is a clinic default.',
    'Tension a scar garment loses in 90 worn days, most',
  ),
  flatKnitLossLowPct: limit(
    4,
    '%',
    'published',
    'Flat knit in daily wear: class II 29.3 / 27.6 / 26.5 mmHg at 0, 1 and 3 months, class III 47.5 / 44.2 / 41.3 (Veraart, 99 stockings, abstract); the reach about the mean is a clinic default.',
    'Tension flat knit loses in 90 worn days, least',
  ),
  flatKnitLossHighPct: limit(
    16,
    '%',
    'published',
    'The same study: 9.6 % in class II and 13.1 % in class III in 3 months; the reach about the mean is a clinic default.',
    'Tension flat knit loses in 90 worn days, most',
  ),
  fabricExponentLow: limit(
    0.6,
    'power of strain',
    'clinic default',
    'Tension rises as strain to this power: below 1 a fabric softens. No published range; as used in calculations of the trade (from memory).',
    'How tension follows strain, least',
  ),
  fabricExponentHigh: limit(1.5, 'power of strain', 'clinic default', 'Above 1 a fabric stiffens.', 'How tension follows strain, most'),
  assumedPressureMmHg: limit(
    20,
    'mmHg',
    'clinic default',
    'The middle of 15–25 mmHg for scars (Ai 2017, Sci Rep 7:40185). Assumed only to place a reading in the band; never shown as a pressure.',
    'Pressure a piece is taken to be fitted at until one was read',
  ),
  pressureSdMmHg: limit(
    2.5,
    'mmHg',
    'published',
    'Accuracy of a sensor between garment and skin, ±2.5 mmHg (Macintyre 2007, Burns, abstract); taken as one spread.',
    'Error of a pressure reading, one spread',
  ),
  adultWeightSdPct: limit(
    4,
    '%',
    'clinic default',
    'Weight of grown people a year on differs by about so much, one spread (from memory); it grows with the square root of time.',
    'How far an adult’s weight wanders in a year, one spread',
  ),
  lifeSpreadDays: limit(
    10,
    'days',
    'clinic default',
    'Pieces wear out sooner or later than their life says.',
    'How far wear life varies, one spread',
  ),
  makingSpreadPct: limit(
    50,
    '%',
    'clinic default',
    'One order in ten takes so much longer than the usual days of making.',
    'How much longer the slow tenth of orders takes',
  ),
} as const satisfies Record<string, Limit>;
