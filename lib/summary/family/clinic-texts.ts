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

/** Whom to call by day and by night, and how it is washed, as typed on the form of one page. */
export type TypedCalls = { readonly phone?: string; readonly night?: string; readonly care?: string };

/** What the clinic's own texts leave open, so that the form of a page asks for it. */
export type TextsAsked = { readonly phone: boolean; readonly night: boolean; readonly care: boolean };

/** Whether the clinic's own texts leave open whom to call by day, and by night, and how to wash a garment. */
export function callsAsked(texts: ClinicTexts | undefined): TextsAsked {
  return { phone: !texts?.phone.trim(), night: !texts?.night.trim(), care: !texts?.care.trim() };
}

/** The clinic's texts with what was typed for one page where they leave open whom to call; the clinic's own come first. */
export function textsWithCalls(texts: ClinicTexts | undefined, { phone = '', night = '' }: TypedCalls): ClinicTexts {
  const own = texts ?? { care: '', wait: '', phone: '', phoneHours: '', night: '', emergency: '' };
  return { ...own, phone: own.phone.trim() || phone.trim(), night: own.night.trim() || night.trim() };
}

/** The texts of a clinic by language. */
export const familyTextsSchema = z.record(z.string(), clinicTextsSchema);
