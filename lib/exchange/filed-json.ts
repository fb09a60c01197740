import { z } from 'zod';
import { ENDED_AS, PHASE_KINDS, type Phase } from '../course/phases';
import { GARMENT_OPTIONS, type GarmentSpec, type OptionKind } from '../garment-forms/garment-catalogue';
import { OWN_FORM } from '../garment-forms/own-form-schema';
import { LIMBS } from '../ladder/limb';
import { isTakenOn, PARTS } from '../parts/measure';
import { measureTaken } from '../parts/own-measure';
import { OWN_MEASURE } from '../parts/own-measure-schema';
import { CARD_ANSWERS, type CautionFigures } from '../record/caution-answer';
import type { FiledCaution } from '../record/patient-file';
import type { NamedMeasure, PatientEvent } from '../record/patient-record';
import type { PieceLife } from '../record/piece-life';
import { KEPT_AS, REMAKE_REASONS, RETIRED_AS, ZONE_FITS } from '../record/piece-life';
import { type CalendarDay, readDay } from '../units/calendar-day';
import type { Nanometres } from '../units/length';

export const day = z.custom<CalendarDay>((value) => typeof value === 'string' && readDay(value).kind === 'read', 'is not a day');
export const words = z.string().nullable();
export const moment = z.string().refine(isMoment, 'is not a moment');
export const whole = z.int().min(0);

/** True for an instant in ISO 8601 with its zone, as the program writes it. */
export function isMoment(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})$/.test(text);
}

/** A length with its text, unit and exact nanometres. */
export const TYPED_LENGTH = z.object({ text: z.string(), unit: z.enum(['in', 'cm']), nm: z.int().transform((nm) => nm as Nanometres) });

/** A mass with its text, unit and exact nanograms. */
export const TYPED_MASS = z.object({ text: z.string(), unit: z.enum(['kg', 'lb']), ng: z.int() });

const landmark = z.enum(Object.values(LIMBS).flatMap((limb) => limb.landmarks));
export const coverEnd = z.union([landmark, TYPED_LENGTH]);

/** What a garment is. */
export const GARMENT: z.ZodType<GarmentSpec> = z
  .object({
    form: z.string(),
    use: z.enum(['day', 'night', 'other']),
    pressure: z
      .object({ scheme: z.string(), name: z.string(), lowMmHg: z.number().positive(), highMmHg: z.number() })
      .refine(({ lowMmHg, highMmHg }) => lowMmHg <= highMmHg, 'The range of the class runs backwards.')
      .nullable(),
    options: z.array(
      z.object({
        kind: z.enum(Object.keys(GARMENT_OPTIONS) as [OptionKind, ...OptionKind[]]),
        choice: z.string(),
        place: z.string(),
        width: TYPED_LENGTH.nullable(),
      }),
    ),
    own: OWN_FORM.optional(),
  })
  .refine(({ form, own }) => !own || own.id === form, 'The form and its definition are two.');

/** The parts of a piece's life that have a shape of their own. */
export const PIECE_PARTS = {
  garment: GARMENT,
  fit: z.object({
    day,
    zones: z.array(z.object({ zone: z.string(), fit: z.enum(ZONE_FITS) })),
    outcome: z.enum(['keep', 'alter', 'remake']),
    reason: z.enum(REMAKE_REASONS).nullable(),
    words,
    taught: z.boolean(),
  }),
  wearIn: z.object({ firstHours: z.number(), fullHours: z.number(), days: whole, callOn: day, called: day.nullable(), callNote: words }),
  kept: z.array(z.object({ from: day, as: z.enum(KEPT_AS) })),
  alterations: z.array(z.object({ day, kind: z.enum(['let out', 'altered']), width: TYPED_LENGTH.nullable(), words })),
  retiredAs: z.enum(RETIRED_AS),
} satisfies { readonly [Part in keyof PieceLife]?: z.ZodType<NonNullable<PieceLife[Part]>> };

const rung = z.object({
  distance: TYPED_LENGTH,
  girth: TYPED_LENGTH.nullable(),
  again: TYPED_LENGTH.optional(),
  note: z.string().optional(),
  kept: z.array(z.object({ kind: z.string(), by: z.string(), at: moment })).optional(),
});

/** What was chosen when a zero looked moved. */
export const ZERO_CHOICE = z.object({ choice: z.enum(['as-recorded', 'moved-back']), shiftMm: z.number(), by: z.string(), at: moment });

/** A ladder. */
export const LADDER_JSON = z.object({
  limb: z.enum(['leg', 'arm']),
  side: z.enum(['left', 'right']),
  zero: z.string(),
  direction: z.enum(['up', 'down']),
  unit: z.enum(['in', 'cm']),
  rungs: z.array(rung),
  landmarks: z.array(z.object({ landmark, distance: TYPED_LENGTH })),
  floorToFold: TYPED_LENGTH.nullable(),
  zeroChoice: ZERO_CHOICE.nullable().optional(),
  intervalText: words.optional(),
});

/** A named measure of the catalogue or of a clinic, under a part and side that it is taken on. */
export const NAMED_MEASURE_JSON: z.ZodType<NamedMeasure> = z
  .object({
    part: z.enum(PARTS),
    side: z.enum(['left', 'right', 'middle']),
    measure: z.string(),
    own: OWN_MEASURE.optional(),
    length: TYPED_LENGTH,
    again: TYPED_LENGTH.optional(),
    note: z.string().optional(),
    kept: z.array(z.object({ kind: z.string(), by: z.string(), at: moment })).optional(),
  })
  .refine(({ part, side, measure: id, own }) => {
    const measure = measureTaken({ measure: id, own });
    return measure !== undefined && (measure.part === part || measure.alsoOf === part) && isTakenOn(measure, side);
  }, 'is not a measure of that part and side');

/** An event as a bundle carries it whole. */
export const EVENT_JSON: z.ZodType<PatientEvent> = z.object({
  day,
  kind: z.enum(['operation', 'infection', 'therapy', 'other']),
  words: z.string(),
});

/** A phase of the course of care; what is not there stays away. */
export const PHASE_JSON: z.ZodType<Phase> = z
  .object({
    kind: z.enum(PHASE_KINDS),
    from: day,
    until: day.nullable(),
    baselineDay: day.nullable(),
    askOn: day.optional(),
    endedAs: z.enum(ENDED_AS).optional(),
    note: z.string().optional(),
  })
  .transform(({ askOn, endedAs, note, ...phase }) => ({
    ...phase,
    ...(askOn && { askOn }),
    ...(endedAs && { endedAs }),
    ...(note && { note }),
  }));

/** Figures that a caution card was answered with. */
export const CAUTION_FIGURES: z.ZodType<CautionFigures> = z.object({
  abpi: z.number().optional(),
  abpiDay: day.optional(),
  details: z.record(z.string(), z.string()).optional(),
  limits: z.record(z.string(), z.number()).optional(),
});

/** The latest answer to a caution card. */
export const CAUTION_JSON: z.ZodType<FiledCaution> = z.object({
  card: z.string(),
  cardVersion: z.string(),
  answer: z.enum(CARD_ANSWERS),
  day,
  words,
  wording: z.string(),
  figures: CAUTION_FIGURES.nullable(),
});

/** JSON of one of these shapes, or why it is not: what is wrong, and where in it. */
export function readJson<T>(
  text: string,
  shape: z.ZodType<T>,
): { readonly kind: 'read'; readonly value: T } | { readonly kind: 'refused'; readonly reason: string } {
  try {
    const found = shape.safeParse(JSON.parse(text));
    if (found.success) return { kind: 'read', value: found.data };
    const issue = found.error.issues[0];
    return { kind: 'refused', reason: `${issue?.path.join('.') || 'The JSON'}: ${issue?.message ?? 'not as expected'}.` };
  } catch {
    return { kind: 'refused', reason: 'This is not JSON.' };
  }
}
