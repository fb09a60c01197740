import { z } from 'zod';

/** What the clinic itself says on the family page, in one language. Empty boxes are said so on the page, never left out. */
export const clinicTextsSchema = z.strictObject({
  care: z.string().max(600),
  wait: z.string().max(600),
  phone: z.string().max(40),
  phoneHours: z.string().max(200),
  emergency: z.string().max(40),
});

export type ClinicTexts = z.infer<typeof clinicTextsSchema>;

/** The texts of a clinic by language. */
export const familyTextsSchema = z.record(z.string(), clinicTextsSchema);
