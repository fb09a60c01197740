import { z } from 'zod';
import { PARTS } from '../parts/measure';
import { OWN_MEASURE } from '../parts/own-measure-schema';
import { OCCASIONS } from '../record/patient-record';
import { isPlainText } from '../units/plain-text';
import type { VisitForm } from './visit-form';

/** A text of so many characters at most, which both databases keep to the letter. */
const text = (most: number) => z.string().max(most).refine(isPlainText, 'holds a character that is none');

/** Longer texts than any reading has; a note may be longer. They bound what a stranger could make the server keep. */
const SHORT = text(60);
const NAME = text(120);

const side = z.enum(['left', 'right']);
const unit = z.enum(['in', 'cm']);
const kept = z.array(z.object({ kind: SHORT, by: NAME, at: SHORT })).max(20);
const cell = z.object({ text: SHORT, again: SHORT.optional(), kept: kept.optional(), note: text(500).optional() });

const sheet = z.object({
  limb: z.enum(['leg', 'arm']),
  sides: z.array(side).min(1).max(2),
  zero: NAME,
  direction: z.enum(['up', 'down']),
  unit,
  interval: SHORT,
  fromZero: z.boolean(),
  endRow: z.boolean(),
  count: z.number().int().min(0).max(120),
  more: z.number().int().min(0).max(120),
  extras: z.array(z.object({ place: SHORT, name: NAME })).max(60),
  apart: z.boolean(),
  marks: z.record(z.string().regex(/^(left|right)\/[a-z-]+$/), SHORT),
  cells: z.record(z.string().regex(/^(left|right)\/(\d{1,12}|end)$/), cell),
});

const place = { part: z.enum(PARTS), side: z.enum(['left', 'right', 'middle']) };

const measure = z.object({
  ...place,
  measure: z.string().regex(/^[a-z0-9-]{1,60}$/),
  own: OWN_MEASURE.optional(),
  text: SHORT,
  again: SHORT.optional(),
  unit,
  note: text(500).optional(),
  kept: kept.optional(),
});

/**
 * The shape of a form that comes from outside, before anything in it is read: right boxes, bounded lengths.
 *
 * What the texts say is `readVisitForm`'s business; this only keeps out what no sheet sends.
 */
export const visitFormSchema: z.ZodType<VisitForm> = z.object({
  day: SHORT,
  time: SHORT,
  posture: NAME,
  measurer: NAME,
  height: SHORT,
  heightUnit: unit,
  weight: SHORT,
  massUnit: z.enum(['kg', 'lb']),
  note: text(4000),
  sheets: z.array(sheet).max(8),
  readings: z.array(z.object({ name: NAME, text: SHORT, unit })).max(40),
  parts: z.array(z.object(place)).max(12).optional(),
  measures: z.array(measure).max(300).optional(),
  keptBody: kept.optional(),
  occasion: z.enum([...OCCASIONS, '']).optional(),
});
