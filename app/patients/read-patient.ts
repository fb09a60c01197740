import { z } from 'zod';
import { postedText } from '@/app/_form/posted';
import { PART_PLACES, partOfSideInWords } from '@/lib/parts/measure';
import { DIAGNOSIS_GROUPS } from '@/lib/record/diagnosis-groups';
import type { PatientDetails } from '@/lib/record/patient-details';
import type { LimbSide } from '@/lib/record/patient-record';
import { LANGUAGES } from '@/lib/summary/family/language-names';
import { type CalendarDay, readDay } from '@/lib/units/calendar-day';

/** The four limbs a box can be ticked for, by the value of the box. */
const LIMB_BOXES: Readonly<Record<string, LimbSide>> = {
  'right-leg': { limb: 'leg', side: 'right' },
  'left-leg': { limb: 'leg', side: 'left' },
  'right-arm': { limb: 'arm', side: 'right' },
  'left-arm': { limb: 'arm', side: 'left' },
};

/** Hands, feet, trunk, head and residual limbs, by the value of the box: `right hand`, `trunk`. */
const PART_BOXES = new Map(PART_PLACES.map(({ part, side }) => [partOfSideInWords(part, side), { part, side }]));

/** What was typed, word for word, so that a refused form gives it back. */
export type TypedPatient = {
  readonly reference: string;
  readonly name: string;
  readonly born: string;
  readonly sex: string;
  readonly diagnosisGroup: string;
  readonly affected: readonly string[];
  readonly language: string;
  /** Why the details are corrected; empty for a new patient. */
  readonly reason: string;
};

/** One sentence for each field that was refused. */
export type PatientErrors = Partial<Record<keyof TypedPatient, string>>;

const OLDEST = '1900-01-01';

/** The form's boxes as text. */
export function typedPatient(form: FormData): TypedPatient {
  const boxes = postedText(form);
  const text = (name: string) => boxes[name] ?? '';
  return {
    reference: text('reference'),
    name: text('name'),
    born: text('born'),
    sex: text('sex'),
    diagnosisGroup: text('diagnosisGroup'),
    affected: form.getAll('affected').map(String),
    language: text('language'),
    reason: text('reason'),
  };
}

/** A patient's details as the form shows them. */
export function typedFrom(details: PatientDetails): TypedPatient {
  const { reference, name, born, sex, diagnosisGroup, affected, affectedParts, language } = details;
  const ticked = Object.entries(LIMB_BOXES).filter(([, box]) => affected.some(({ limb, side }) => limb === box.limb && side === box.side));
  const parts = (affectedParts ?? []).map(({ part, side }) => partOfSideInWords(part, side));
  return {
    reference,
    name: name ?? '',
    born,
    sex,
    diagnosisGroup,
    affected: [...ticked.map(([box]) => box), ...parts],
    language,
    reason: '',
  };
}

/** A patient's details as the form was read, or why it was not. */
export type PatientRead =
  | { readonly kind: 'read'; readonly details: PatientDetails }
  | { readonly kind: 'refused'; readonly errors: PatientErrors };

/** What was typed as a patient's details, or a sentence beside each field that cannot be read. `today` bounds the birthday. */
export function readPatient(typed: TypedPatient, today: CalendarDay): PatientRead {
  const read = schema(today).safeParse(typed);
  if (read.success) {
    const { affected: boxes, ...rest } = read.data;
    const affectedParts = boxes.flatMap((box) => PART_BOXES.get(box) ?? []);
    const affected = boxes.flatMap((box) => LIMB_BOXES[box] ?? []);
    return { kind: 'read', details: { ...rest, affected, ...(affectedParts.length > 0 ? { affectedParts } : {}), note: null } };
  }
  const first = Object.entries(z.flattenError(read.error).fieldErrors).map(([field, sentences]) => [field, sentences?.[0]]);
  return { kind: 'refused', errors: Object.fromEntries(first) };
}

function schema(today: CalendarDay) {
  return z.object({
    reference: z
      .string()
      .trim()
      .min(1, 'Type the reference your clinic files this person under.')
      .max(40, 'A reference has at most 40 characters.')
      .regex(/^[^\p{C}]*$/u, 'Leave out characters that cannot be printed.'),
    name: z
      .string()
      .trim()
      .max(120, 'A name has at most 120 characters.')
      .transform((name) => name || null),
    born: z.string().transform((text, context): CalendarDay => {
      const day = readDay(text);
      if (day.kind === 'read' && day.value <= today && day.value >= OLDEST) return day.value;
      context.addIssue({
        code: 'custom',
        message: birthdayRefusal(text, today, day.kind === 'refused' ? day.reason : ''),
      });
      return z.NEVER;
    }),
    sex: z.enum(['F', 'M', 'X'], 'Choose which growth table to read, or none.'),
    diagnosisGroup: z.enum(DIAGNOSIS_GROUPS, 'Choose the group that fits best.'),
    affected: z.array(z.enum([...Object.keys(LIMB_BOXES), ...PART_BOXES.keys()])).min(1, 'Tick each affected limb or part.'),
    language: z.enum(LANGUAGES, 'Choose the language of the family page.'),
  });
}

function birthdayRefusal(text: string, today: CalendarDay, unread: string): string {
  if (text.trim() === '') return 'Type the date of birth. Growth is counted from it.';
  if (unread) return unread;
  return text > today ? 'This day has not come yet.' : 'Type a day after 1900.';
}
