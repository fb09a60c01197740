import { z } from 'zod';
import { LONGEST_OF_ORDER, ORDER_REASONS, type Order } from '../record/order';
import type { FiledPiece } from '../record/patient-file';
import type { Cover, WornPlace } from '../record/patient-record';
import {
  coverEnd,
  day,
  GARMENT,
  LADDER_JSON,
  moment,
  NAMED_MEASURE_JSON,
  PIECE_PARTS,
  TYPED_LENGTH,
  TYPED_MASS,
  whole,
  words,
} from './filed-json';

const proposed = z.union([
  z.object({ noAnswer: z.string() }),
  z.object({
    middleMm: z.number(),
    highMm: z.number(),
    places: z.array(z.object({ placeMm: z.number(), middleMm: z.number() })),
  }),
]);

/** Where a garment is worn, and what it covers: trunk and head only where named measures alone make it. */
const WORN = {
  limb: z.enum(['leg', 'arm', 'trunk', 'head']),
  side: z.enum(['left', 'right', 'middle']),
  covers: z.union([z.object({ from: coverEnd, to: coverEnd }), z.literal('measures')]),
};
const PLACE_OF_MEASURES = 'trunk and head stand in the middle and have no ladder; arm and leg have a side';

function isWorn({ limb, side, covers }: WornPlace & { readonly covers: Cover }): boolean {
  const inTheMiddle = limb === 'trunk' || limb === 'head';
  return inTheMiddle === (side === 'middle') && (!inTheMiddle || covers === 'measures');
}

/** An order as it stands in a file, without the visit it was cut from. */
export const ORDER_JSON: z.ZodType<Omit<Order, 'cutFromVisitId'>> = z
  .object({
    ...WORN,
    order: z.int().min(1),
    state: z.enum(['proposed', 'ordered', 'cancelled']),
    cutFrom: day,
    garment: GARMENT,
    reductionPct: z.number(),
    convention: z.enum(['C(1-r)', 'C/(1+r)']),
    quantity: z.int().min(1),
    heldBack: z.int().min(1).optional(),
    allowance: z.object({
      proposed,
      further: z.array(z.object({ limb: z.enum(['leg', 'arm']), side: z.enum(['left', 'right']), proposed })).optional(),
      decided: TYPED_LENGTH.nullable(),
    }),
    lifeDays: whole,
    leadDays: whole,
    reasonCode: z.enum(ORDER_REASONS),
    note: words,
    maker: z.string().min(1).max(LONGEST_OF_ORDER.maker).optional(),
    colour: z.string().min(1).max(LONGEST_OF_ORDER.colour).optional(),
    neededBy: day.optional(),
    questions: z.array(z.object({ key: z.string(), message: z.string(), answer: z.string(), by: z.string(), at: moment })),
    ordered: day.nullable(),
    expected: day.nullable(),
    sent: z
      .object({
        day,
        visitRevision: z.int(),
        measurer: words,
        ladder: LADDER_JSON.optional(),
        further: z.array(LADDER_JSON).optional(),
        measures: z.array(NAMED_MEASURE_JSON).optional(),
        readings: z.array(z.object({ name: z.string(), length: TYPED_LENGTH })),
        height: TYPED_LENGTH.nullable(),
        weight: TYPED_MASS.nullable(),
      })
      .nullable(),
    checked: z
      .union([z.literal('unchecked'), z.object({ by: z.string(), name: z.string(), at: moment, visitRevision: z.int() })])
      .nullable(),
  })
  .refine(isWorn, PLACE_OF_MEASURES)
  .refine(
    ({ covers, sent }) => !sent || (covers === 'measures') === (sent.ladder === undefined),
    'has a ladder where its cover has one, and only there',
  );

/** An order with the visit it was cut from. */
export const FILED_ORDER_JSON: z.ZodType<Order> = ORDER_JSON.and(z.object({ cutFromVisitId: z.string() }));

/** A piece with its whole life. */
export const FILED_PIECE_JSON: z.ZodType<FiledPiece> = z
  .object({
    piece: z.string(),
    ...WORN,
    cutFromVisitId: words,
    cutFrom: day,
    reductionPct: z.number(),
    convention: z.enum(['C(1-r)', 'C/(1+r)']),
    allowance: TYPED_LENGTH.nullable(),
    lifeDays: whole,
    leadDays: whole,
    order: z.int().nullable(),
    expected: day.nullable(),
    delivered: day.nullable(),
    firstFit: day.nullable(),
    firstWorn: day.nullable(),
    retired: day.nullable(),
    retiredReason: words,
    garment: PIECE_PARTS.garment.nullable(),
    fit: PIECE_PARTS.fit.nullable(),
    wearIn: PIECE_PARTS.wearIn.nullable(),
    kept: PIECE_PARTS.kept.nullable(),
    alterations: PIECE_PARTS.alterations.nullable(),
    retiredAs: PIECE_PARTS.retiredAs.nullable(),
  })
  .refine(isWorn, PLACE_OF_MEASURES);
