import { z } from 'zod';
import type { LimbKind, Side } from '../ladder/limb';
import type { LengthUnit, TypedLength } from '../units/length';

/** Bounds of a study: what can be typed in half an hour, and the least that says anything. Source: common practice, five limbs by three measurers twice. */
export const STUDY_BOUNDS = {
  people: { least: 1, most: 12 },
  limbs: { least: 3, most: 24 },
  measurers: { least: 2, most: 6 },
  repeats: { least: 2, most: 4 },
  rungs: { least: 5, most: 12 },
  code: 12,
  reason: 200,
} as const;

/** One limb that is taped: whose, by a code that is no name, and which. */
export type StudyLimb = { readonly person: string; readonly limb: LimbKind; readonly side: Side };

/** What a study is of, fixed before its first figure: limbs, who tapes them, how often, at which heights, and the seed its order is drawn from. */
export type StudyPlan = {
  readonly limbs: readonly StudyLimb[];
  readonly measurers: readonly { readonly id: string; readonly name: string }[];
  readonly repeats: number;
  readonly unit: LengthUnit;
  /** Heights above the floor or the wrist mark, from the lowest. */
  readonly heights: readonly TypedLength[];
  readonly seed: number;
};

/** One taping of a study: by whom (place among the measurers), of which limb (place among the limbs), for the how-manieth time, from 0. */
export type StudyTurn = { readonly measurer: number; readonly limb: number; readonly repeat: number };

/** What was typed of one taping: a girth at every height. */
export type StudyRun = { readonly turn: StudyTurn; readonly girths: readonly TypedLength[] };

const length = z.object({
  text: z.string().max(60),
  unit: z.enum(['in', 'cm']),
  nm: z.int().positive(),
}) as unknown as z.ZodType<TypedLength>;
const place = z.int().nonnegative();
const { limbs, measurers, repeats, rungs, code } = STUDY_BOUNDS;

/** A plan as it is kept. */
export const STUDY_PLAN = z.strictObject({
  limbs: z
    .array(z.strictObject({ person: z.string().min(1).max(code), limb: z.enum(['leg', 'arm']), side: z.enum(['left', 'right']) }))
    .min(limbs.least)
    .max(limbs.most),
  measurers: z
    .array(z.strictObject({ id: z.string().max(100), name: z.string().max(200) }))
    .min(measurers.least)
    .max(measurers.most),
  repeats: z.int().min(repeats.least).max(repeats.most),
  unit: z.enum(['in', 'cm']),
  heights: z.array(length).min(rungs.least).max(rungs.most),
  seed: z.int().nonnegative(),
}) satisfies z.ZodType<StudyPlan>;

/** A taping as it is kept. */
export const STUDY_RUN = z.strictObject({
  turn: z.strictObject({ measurer: place, limb: place, repeat: place }),
  girths: z.array(length).min(rungs.least).max(rungs.most),
}) satisfies z.ZodType<StudyRun>;

/** A taping by a short name, for addresses. Example: measurer 0, limb 3, second time: `0-3-1`. */
export function turnName({ measurer, limb, repeat }: StudyTurn): string {
  return `${measurer}-${limb}-${repeat}`;
}

/** A limb in words: `P3, left leg`. */
export function studyLimbInWords({ person, side, limb }: StudyLimb): string {
  return `${person}, ${side} ${limb}`;
}
