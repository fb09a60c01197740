import { limbInWords } from '../../ladder/limb';
import type { LimbSide } from '../../record/patient-record';
import type { CalendarDay } from '../../units/calendar-day';
import type { TextsAsked } from './clinic-texts';
import type { FamilyChoice } from './family-content';
import { CHANGES, REASONS, RIGHTS } from './family-words';
import { LANGUAGES } from './language-names';
import { readSteps } from './step-rows';

/** Letters that fit on one side of paper, by box. */
const LONGEST = { note: 400, wornFor: 80, allergies: 80, phone: 40, night: 200, care: 300 } as const;

/** What was typed, by box; steps as `step0Kind`, `step0Day`, `step0Words`. */
export type TypedFamily = Readonly<Record<string, string>>;

export type FamilyFormRead =
  | { readonly kind: 'read'; readonly choice: FamilyChoice }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/** What the form is held against: pieces outside their band by limb, and what the clinic's texts leave open by language. */
export type FamilyAgainst = {
  readonly outside: (limb: LimbSide) => readonly string[];
  readonly asks: (language: string) => TextsAsked;
};

const NOTHING_AGAINST: FamilyAgainst = { outside: () => [], asks: () => ({ phone: false, night: false, care: false }) };

/** The box in which somebody says that they saw what lies outside its band fit on a limb: it is of that limb alone. */
export function fitsAnywayOn({ limb, side }: LimbSide): string {
  return `fitsAnyway-${side}-${limb}`;
}

/** Whether an answer tells the family that the garment fits today. */
export function saysItFits(right: string): boolean {
  return right === 'yes' || right === 'soon';
}

/**
 * What a therapist confirmed for the family page, or one sentence beside each box that stops it.
 *
 * Refuses a limb that was not measured at the visit, a change or an answer that was not chosen (nothing is chosen for a person), hours
 * beyond a day, a fit today over a piece outside its band until somebody says of that limb that they saw it fit (`fitsAnywayOn`), an open number or night where the
 * clinic's texts say neither, and what `readSteps` refuses.
 */
export function readFamilyForm(
  typed: TypedFamily,
  limbs: readonly LimbSide[],
  visitDay: CalendarDay,
  against: FamilyAgainst = NOTHING_AGAINST,
): FamilyFormRead {
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
  const outside = limb && right && saysItFits(right) && text(fitsAnywayOn(limb)) !== 'yes' ? against.outside(limb) : [];
  if (limb && outside.length > 0)
    refuse(
      'right',
      `${outside.join(' ')} Choose another answer, or say below that you saw it fit on the ${limbInWords(limb.limb, limb.side)}.`,
    );
  const asks = against.asks(language ?? '');
  if (asks.phone && text('phone') === '') refuse('phone', 'Type the number that the family calls: no page leaves without it.');
  if (asks.night && text('night') === '') refuse('night', 'Say in one sentence, in the language of the page, whom to call at night.');
  const why = REASONS.find((one) => one === text('why')) ?? null;
  const hours = text('hours') === '' ? null : Number(text('hours'));
  if (hours !== null && !(Number.isInteger(hours) && hours >= 1 && hours <= 24))
    refuse('hours', 'Type whole hours, 1 to 24, or leave it empty.');
  for (const box of Object.keys(LONGEST) as (keyof typeof LONGEST)[])
    if (text(box).length > LONGEST[box]) refuse(box, 'This is too long for one side of paper.');
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
      calls: { phone: text('phone'), night: text('night'), care: text('care') },
    },
  };
}
