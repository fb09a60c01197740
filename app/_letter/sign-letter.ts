'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { signLetter } from '@/db/documents/letters';
import { deathIn } from '@/lib/course/phases';
import { readLetterForm, type TypedLetter } from '@/lib/summary/letter/read-letter-form';
import { type ReplacementLetter, replacementLetter } from '@/lib/summary/letter/replacement-letter';
import { showDay } from '@/lib/units/calendar-day';
import { loadLetter } from './load-letter';

/** What came of the form: boxes that stop it, or the letter to be read before it is signed; everything typed comes back. */
export type LetterFormState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: TypedLetter | null;
  readonly letter: ReplacementLetter | null;
};

/** Shows the letter as it would stand, or freezes it as signed: only a letter that was shown just so can be signed. */
export async function signLetterAction(_before: LetterFormState, form: FormData): Promise<LetterFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', pieceId = '', submissionId = '', intent = '', shown = '' } = typed;
  const { facts, visitId, clinic, today, record } = await loadLetter(therapist, patientId, pieceId);
  const read = readLetterForm(typed, today);
  if (read.kind === 'refused') return { errors: read.errors, typed, letter: null };
  const letter = replacementLetter(facts, read.choice, clinic.name);
  if (intent !== 'sign') return { errors: {}, typed, letter };
  const death = deathIn(record.phases);
  if (death) return { errors: { form: `Died on ${showDay(death.from)}. No letter is signed.` }, typed, letter };
  if (shown !== JSON.stringify(letter))
    return { errors: { form: 'The letter has changed since it was shown. Read it again, then sign it.' }, typed, letter };
  const letterId = await signLetter(therapist, { patientId, visitId, submissionId, letter });
  if (!letterId) return { errors: { form: 'This patient is not in your clinic. Nothing was saved.' }, typed, letter };
  redirect(`/patients/${patientId}/letters/${letterId}`);
}
