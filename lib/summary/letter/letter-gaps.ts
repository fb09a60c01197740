import { limbInWords } from '../../ladder/limb';
import { showDay } from '../../units/calendar-day';
import type { LetterFacts } from './letter-facts';
import { LETTER_GAPS as GAPS } from './letter-words';

/**
 * What the record does not hold for a letter, for the therapist to know or to add in words; the letter itself says nothing of it.
 *
 * Shape: the facts of a letter; a few words each, none where all is on record.
 */
export function letterGaps(facts: LetterFacts): string[] {
  const { order, piece, cutVisit, newVisit, evidence, excess, coverage } = facts;
  const garment = order?.garment ?? piece.garment;
  const limb = limbInWords(piece.limb, piece.side);
  const cut = showDay(piece.cutFrom);
  const days = [cutVisit, newVisit].flatMap((one) => one ?? []);
  const visits = days.filter((one, index) => days.findIndex((other) => other.day === one.day) === index);
  const found: readonly (readonly [boolean, string])[] = [
    [!garment, GAPS.form],
    [!garment?.pressure, GAPS.klass],
    [!garment, GAPS.options],
    [!piece.delivered, GAPS.delivered],
    [!piece.firstWorn, GAPS.firstWorn],
    [!piece.wearIn, GAPS.wearPlan],
    [!piece.fit, GAPS.firstFit],
    [!coverage, GAPS.rule],
    [!cutVisit, GAPS.noOld(limb, cut)],
    [Boolean(cutVisit) && (!newVisit || newVisit.day <= piece.cutFrom), GAPS.noNew(limb, cut)],
    [
      Boolean(piece.covers !== 'measures' && cutVisit && newVisit && newVisit.day > piece.cutFrom && !evidence),
      newVisit ? GAPS.notComparable(cut, showDay(newVisit.day)) : '',
    ],
    [Boolean(piece.covers !== 'measures' && newVisit && !excess), newVisit ? GAPS.excess(showDay(newVisit.day)) : ''],
    ...visits.flatMap((one) => [
      [!one.weight, GAPS.weight(showDay(one.day))] as const,
      [!one.height, GAPS.height(showDay(one.day))] as const,
      [!one.measurer, GAPS.measurer(showDay(one.day))] as const,
    ]),
  ];
  return found.flatMap(([missing, words]) => (missing ? [words] : []));
}
