import { z } from 'zod';

/**
 * What the clinic itself says on the family page, in one language. Washing words are the clinic's to approve: until it keeps its own, the
 * page says to ask. Phone and night must be there before a page can be approved.
 */
export const clinicTextsSchema = z.strictObject({
  care: z.string().max(600),
  wait: z.string().max(600),
  phone: z.string().max(40),
  phoneHours: z.string().max(200),
  /** What to do at night and at weekends: a number, or whom to call, as a whole sentence. */
  night: z.string().max(200).default(''),
  emergency: z.string().max(40),
});

export type ClinicTexts = z.infer<typeof clinicTextsSchema>;

/** The texts of a clinic by language. */
export const familyTextsSchema = z.record(z.string(), clinicTextsSchema);
