import { type CalendarDay, readDay } from '../../units/calendar-day';
import { CUSTOM_REASONS, type CustomReason, LETTER_REASONS, type LetterReason, needsIncident } from './letter-reasons';

/** What was typed, by box; reasons for a custom piece as `custom0`, `custom1`. */
export type TypedLetter = Readonly<Record<string, string>>;

/** What a therapist typed and chose for a letter. A text is empty only where the letter has a sentence for that. */
export type LetterChoice = {
  readonly payer: string;
  readonly payerNumber: string;
  readonly diagnosis: string;
  readonly onset: string;
  readonly prescriber: string;
  readonly orderDay: CalendarDay | null;
  readonly orderHeld: boolean;
  readonly asked: string;
  readonly custom: readonly CustomReason[];
  readonly customWords: string;
  readonly replaces: string;
  readonly reason: LetterReason;
  readonly incidentDay: CalendarDay | null;
  readonly reasonWords: string;
  readonly evidenceWords: string;
  readonly effect: string;
  readonly wear: string;
  readonly coverageWords: string;
  readonly attachments: string;
  readonly signer: string;
  readonly credentials: string;
};

export type LetterFormRead =
  | { readonly kind: 'read'; readonly choice: LetterChoice }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/** Boxes that must hold words, with what to say where they do not. */
const NEEDED = {
  payer: 'Type who pays.',
  diagnosis: 'Type the diagnosis in your words.',
  prescriber: 'Type who prescribed it.',
  asked: 'Say what is asked.',
  replaces: 'Say what it replaces.',
  effect: 'Say what happens without it, in plain clinical words.',
  wear: 'Say how it is worn, or that this is not known.',
  signer: 'Type the name of the person who signs.',
  credentials: 'Type the credentials of the person who signs.',
} as const;

/**
 * What a letter is written from, or one sentence beside each box that stops it.
 *
 * Refuses more or fewer than one primary reason, a lost, stolen or damaged piece without the day and the words of it, a day after today,
 * and a made-to-measure piece without a reason for it. Nothing is chosen for the person who signs.
 */
export function readLetterForm(typed: TypedLetter, today: CalendarDay): LetterFormRead {
  const errors: Record<string, string> = {};
  const text = (box: string): string => (typed[box] ?? '').trim();
  for (const [box, why] of Object.entries(NEEDED)) if (text(box) === '') errors[box] = why;
  const day = (box: string): CalendarDay | null => {
    if (text(box) === '') return null;
    const reading = readDay(text(box));
    if (reading.kind === 'read' && reading.value <= today) return reading.value;
    errors[box] = reading.kind === 'read' ? 'This day is still to come.' : 'Type the day.';
    return null;
  };
  const orderDay = day('orderDay');
  const incidentDay = day('incidentDay');
  const reason = LETTER_REASONS.find((one) => one === text('reason'));
  if (!reason) errors.reason = 'Choose one primary reason.';
  if (reason && needsIncident(reason)) {
    if (text('incidentDay') === '') errors.incidentDay = 'Type the day it happened.';
    if (text('reasonWords') === '') errors.reasonWords = 'Say what happened.';
  }
  const custom = CUSTOM_REASONS.filter((_, index) => text(`custom${index}`) !== '');
  if (custom.length === 0 && text('customWords') === '') errors.customWords = 'Tick a reason above, or say it in your words.';
  if (Object.keys(errors).length > 0 || !reason) return { kind: 'refused', errors };
  return {
    kind: 'read',
    choice: {
      payer: text('payer'),
      payerNumber: text('payerNumber'),
      diagnosis: text('diagnosis'),
      onset: text('onset'),
      prescriber: text('prescriber'),
      orderDay,
      orderHeld: text('orderHeld') !== '',
      asked: text('asked'),
      custom,
      customWords: text('customWords'),
      replaces: text('replaces'),
      reason,
      incidentDay,
      reasonWords: text('reasonWords'),
      evidenceWords: text('evidenceWords'),
      effect: text('effect'),
      wear: text('wear'),
      coverageWords: text('coverageWords'),
      attachments: text('attachments'),
      signer: text('signer'),
      credentials: text('credentials'),
    },
  };
}
