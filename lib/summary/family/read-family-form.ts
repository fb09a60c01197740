import type { LimbSide } from '../../record/patient-record';
import type { CalendarDay } from '../../units/calendar-day';
import type { FamilyChoice } from './family-content';
import { CHANGES, REASONS, RIGHTS } from './family-words';
import { LANGUAGES } from './language-names';
import { readSteps } from './step-rows';

/** Letters that fit on one side of paper, by box. */
const LONGEST = { note: 400, wornFor: 80, allergies: 80 } as const;

/** What was typed, by box; steps as `step0Kind`, `step0Day`, `step0Words`. */
export type TypedFamily = Readonly<Record<string, string>>;

export type FamilyFormRead =
  | { readonly kind: 'read'; readonly choice: FamilyChoice }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/**
 * What a therapist confirmed for the family page, or one sentence beside each box that stops it.
 *
 * Refuses a limb that was not measured at the visit, a change or an answer that was not chosen (nothing is chosen for a person), hours
 * beyond a day, and what `readSteps` refuses.
 */
export function readFamilyForm(typed: TypedFamily, limbs: readonly LimbSide[], visitDay: CalendarDay): FamilyFormRead {
  const errors: Record<string, string> = {};
  const text = (box: string): string => (typed[box] ?? '').trim();
  const refuse = (box: string, reason: string): null => {
    errors[box] ??= reason;
    return null;
  };
  const limb =
    limbs.find((one) => `${one.side} ${one.limb}` === text('limb')) ?? refuse('limb', 'Choose a limb that was measured at this visit.');
  const language = LANGUAGES.find((one) => one === text('language')) ?? refuse('language', 'Choose the language.');
  const reader = (['family', 'patient'] as const).find((one) => one === text('reader')) ?? refuse('reader', 'Choose who reads it.');
  const name = text('name');
  if (reader === 'family' && name === '') refuse('name', 'Type the name as the family says it.');
  const change = CHANGES.find((one) => one === text('change')) ?? refuse('change', 'Choose what you say of the limb.');
  const right = RIGHTS.find((one) => one === text('right')) ?? refuse('right', 'Choose what you say of the garment.');
  const why = REASONS.find((one) => one === text('why')) ?? null;
  const hours = text('hours') === '' ? null : Number(text('hours'));
  if (hours !== null && !(Number.isInteger(hours) && hours >= 1 && hours <= 24))
    refuse('hours', 'Type whole hours, 1 to 24, or leave it empty.');
  for (const box of ['note', 'wornFor', 'allergies'])
    if (text(box).length > LONGEST[box as keyof typeof LONGEST]) refuse(box, 'This is too long for one side of paper.');
  const steps = readSteps(text, visitDay, refuse);
  if (Object.keys(errors).length > 0 || !limb || !language || !reader || !change || !right) return { kind: 'refused', errors };
  return {
    kind: 'read',
    choice: {
      language,
      person: { reader, name, ...limb },
      change,
      right,
      why,
      hours,
      steps,
      note: text('note'),
      wornFor: text('wornFor'),
      allergies: text('allergies'),
    },
  };
}
