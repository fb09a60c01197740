import { z } from 'zod';
import type { TypedLength } from '../units/length';
import { STUDY_BOUNDS, type StudyPlan, type StudyRun } from './study-plan';

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
