import { lengthAsTyped } from '../../forms/read-cut';
import { formOf } from '../../garment-forms/own-form';
import { limbInWords } from '../../ladder/limb';
import { optionsInWords, pressureInWords, wornInWords } from '../../orders/order-difference';
import { coverInWords } from '../../prompts/show-figures';
import { showDay } from '../../units/calendar-day';
import type { LetterFacts } from './letter-facts';
import { garmentKind } from './letter-kind';
import { LETTER_WORDS as WORDS } from './letter-words';

/** The paragraphs of a letter that start from the record and may be edited. */
export type LetterDraft = { readonly asked: string; readonly replaces: string; readonly wear: string };

/** What the record says of the piece asked for, the piece it replaces and its wear; of what it does not hold it says nothing (`letterGaps`). */
export function letterDraft(facts: LetterFacts): LetterDraft {
  return { asked: asked(facts), replaces: replaces(facts), wear: wear(facts) };
}

function asked({ order, piece, newVisit }: LetterFacts): string {
  const garment = order?.garment ?? piece.garment;
  const quantity = order?.quantity ?? 1;
  const what = garment ? (formOf(garment)?.words ?? garment.form) : garmentKind(garment);
  const day = order?.cutFrom ?? newVisit?.day;
  return [
    WORDS.asked(
      quantity === 1 ? 'One piece' : `${quantity} like pieces`,
      what,
      coverInWords((order ?? piece).covers),
      limbInWords(piece.limb, piece.side),
    ),
    ...(garment?.pressure ? [WORDS.klass(pressureInWords(garment))] : []),
    ...(garment ? [WORDS.worn(wornInWords(garment))] : []),
    ...(garment && garment.options.length > 0 ? [WORDS.options(optionsInWords(garment))] : []),
    ...(day ? [WORDS.cutFrom(showDay(day))] : []),
  ].join(' ');
}

function replaces({ piece, today, stage, daysWorn, wearDays, inTurn }: LetterFacts): string {
  const until = piece.retired && piece.retired < today ? piece.retired : today;
  const alterations = piece.alterations ?? [];
  const made = alterations.map(({ day, kind, width, words }) =>
    [`${kind} on ${showDay(day)}`, width ? lengthAsTyped(width) : '', words ?? ''].filter((one) => one !== '').join(', '),
  );
  return [
    WORDS.piece(piece.piece, limbInWords(piece.limb, piece.side), coverInWords(piece.covers)),
    WORDS.cutOn(showDay(piece.cutFrom)),
    ...(piece.delivered ? [WORDS.issued(showDay(piece.delivered))] : []),
    ...(piece.firstWorn ? [WORDS.firstWorn(showDay(piece.firstWorn))] : []),
    ...(daysWorn === null ? [] : [WORDS.age(daysWorn, showDay(until))]),
    ...(wearDays === null ? [] : [WORDS.wearDays(wearDays, inTurn)]),
    WORDS.life(piece.lifeDays),
    piece.retired && piece.retired <= today
      ? WORDS.retired(showDay(piece.retired), piece.retiredReason ?? piece.retiredAs ?? null)
      : WORDS.stage(stage),
    ...(made.length > 0 ? [WORDS.altered(made.join('; '))] : []),
  ].join(' ');
}

function wear({ piece }: LetterFacts): string {
  const { wearIn, fit, firstFit } = piece;
  return [
    ...(wearIn ? [WORDS.wearIn(wearIn.firstHours, wearIn.fullHours, wearIn.days)] : []),
    ...(fit ? [WORDS.firstFit(showDay(fit.day), fit.outcome)] : firstFit ? [WORDS.firstFitOnly(showDay(firstFit))] : []),
    ...(wearIn?.called && wearIn.callNote ? [WORDS.call(showDay(wearIn.called), wearIn.callNote)] : []),
  ].join(' ');
}
