import { z } from 'zod';
import { measureTaken } from '../parts/own-measure';
import { OWN_MEASURE } from '../parts/own-measure-schema';
import { isPlainText } from '../units/plain-text';
import { OWN_FORM_LADDERS, type OwnForm } from './garment-catalogue';
import { type ListedForm, OWN_FORM_BOUNDS, saysWhatItIsMadeTo } from './own-form';

const { most, words, measures, leadDays, lifeDays } = OWN_FORM_BOUNDS;

const fields = z.object({
  id: z.string().regex(/^own-[0-9a-f]{12}$/),
  words: z.string().trim().min(1).max(words).refine(isPlainText, 'holds a character that is none'),
  ladders: z.enum(OWN_FORM_LADDERS),
  measures: z.array(z.string().max(60)).max(measures),
  own: z.array(OWN_MEASURE).max(measures),
  leadDays: z.int().min(0).max(leadDays),
  lifeDays: z.int().min(1).max(lifeDays),
});
const isDefined = (form: { measures: readonly string[]; own: OwnForm['own'] }) =>
  form.measures.every((id) => measureTaken({ measure: id, own: form.own.find((one) => one.id === id) }) !== undefined);

/** The definition of a clinic's own form, from wherever it comes: every measure it names is of the catalogue or defined in it. */
export const OWN_FORM: z.ZodType<OwnForm> = fields
  .refine(isDefined, 'names a measure that is not defined')
  .refine(saysWhatItIsMadeTo, 'names no measure of the part it is made to');

/** A clinic's own forms as they are stored. */
export const LISTED_FORMS: z.ZodType<readonly ListedForm[]> = z
  .array(fields.extend({ asked: z.boolean() }).refine(isDefined, 'names a measure that is not defined'))
  .max(most);
