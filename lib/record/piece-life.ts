import type { GarmentSpec } from '../garment-forms/garment-catalogue';
import type { CalendarDay } from '../units/calendar-day';
import type { TypedLength } from '../units/length';

/** How one part of a piece sat at the first fit. */
export const ZONE_FITS = ['good', 'too tight', 'too loose', 'too long', 'too short', 'wrinkles', 'cuts in'] as const;
export type ZoneFit = (typeof ZONE_FITS)[number];

/** Why a piece goes back. Source: common practice list; the shares of each are published nowhere, so clinics count their own. */
export const REMAKE_REASONS = [
  'measured wrong',
  'copied wrong',
  'limb changed since',
  'made differently from the order',
  'length wrong',
  'girth wrong',
  'sewing fault',
  'fabric or lining not tolerated',
  'design unsuitable',
] as const;
export type RemakeReason = (typeof REMAKE_REASONS)[number];

/** A first-fit check: each zone, what follows, and what was taught. */
export type FirstFit = {
  readonly day: CalendarDay;
  readonly zones: readonly { readonly zone: string; readonly fit: ZoneFit }[];
  readonly outcome: 'keep' | 'alter' | 'remake';
  readonly reason: RemakeReason | null;
  readonly words: string | null;
  readonly taught: boolean;
};

/** Hours a day built up from the first wear, and the day of the early call. */
export type WearIn = {
  readonly firstHours: number;
  readonly fullHours: number;
  readonly days: number;
  readonly callOn: CalendarDay;
  readonly called: CalendarDay | null;
  readonly callNote: string | null;
};

/** One change made to a piece: room let out (with its width), or another alteration. */
export type Alteration = {
  readonly day: CalendarDay;
  readonly kind: 'let out' | 'altered';
  readonly width: TypedLength | null;
  readonly words: string | null;
};

/** Why a piece went out of use. */
export const RETIRED_AS = ['worn', 'outgrown', 'lost', 'damaged', 'condition changed', 'stopped'] as const;
export type RetiredAs = (typeof RETIRED_AS)[number];

/** How a piece is kept: worn in turn with the others, as a spare, or not made yet, until another of its order has been fitted. */
export const KEPT_AS = ['rotation', 'spare', 'held back'] as const;

/** From a day on a piece is kept so. One that was held back is in turn from the day it was released. */
export type KeptAs = { readonly from: CalendarDay; readonly as: (typeof KEPT_AS)[number] };

/** What happens to a piece beside its cut; each part is absent until it comes. */
export type PieceLife = {
  readonly orderId: string | null;
  readonly garment: GarmentSpec | null;
  readonly expected: CalendarDay | null;
  readonly delivered: CalendarDay | null;
  readonly fit: FirstFit | null;
  readonly wearIn: WearIn | null;
  readonly kept: readonly KeptAs[] | null;
  readonly alterations: readonly Alteration[] | null;
  readonly retiredAs: RetiredAs | null;
};
