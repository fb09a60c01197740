import type { Reading } from '../outcome';
import type { Piece } from '../record/patient-record';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { readLength } from '../units/read-length';
import { type CutLadder, coverAsTyped, lengthAsTyped, readConvention, readCover, readDays, readReduction } from './read-cut';

/** The boxes of the piece form, word for word as typed. `cutFrom` is the key of a ladder: visit id, limb and side. */
export const PIECE_BOXES = [
  'piece',
  'cutFrom',
  'from',
  'to',
  'reduction',
  'convention',
  'allowance',
  'firstWorn',
  'firstFit',
  'lifeDays',
  'leadDays',
  'retired',
  'retiredReason',
] as const;

export type PieceBox = (typeof PIECE_BOXES)[number];
export type TypedPieceForm = Readonly<Record<PieceBox, string>>;

export type PieceFormRead =
  | {
      readonly kind: 'read';
      readonly piece: Piece & { readonly firstFit: CalendarDay | null };
      readonly ladder: CutLadder;
      readonly retiredReason: string | null;
    }
  | { readonly kind: 'refused'; readonly errors: Partial<Record<PieceBox, string>> };

/**
 * A piece from what was typed, or one sentence beside each box that cannot be read.
 *
 * Refuses a ladder that is not offered, a name taken by another piece of the patient, days that run backwards, a reduction that is not cut.
 * Shape: typed boxes, the ladders on offer, names already taken; a piece as the rules see it.
 */
export function readPieceForm(typed: TypedPieceForm, ladders: readonly CutLadder[], taken: readonly string[]): PieceFormRead {
  const errors: Partial<Record<PieceBox, string>> = {};
  const refuse = (box: PieceBox, reason: string): null => {
    errors[box] ??= reason;
    return null;
  };
  const accept = <T>(box: PieceBox, reading: Reading<T>): T | null =>
    reading.kind === 'read' ? reading.value : refuse(box, reading.reason);
  const day = (box: PieceBox): CalendarDay | null => (typed[box].trim() === '' ? null : accept(box, readDay(typed[box])));

  const piece = typed.piece.trim();
  if (piece === '') refuse('piece', 'Give the piece a name or number, so that two of one order can be told apart.');
  if (taken.includes(piece)) refuse('piece', `Piece ${piece} is on record already. Two of one order are two pieces.`);
  const ladder = ladders.find((one) => one.key === typed.cutFrom) ?? null;
  if (!ladder) refuse('cutFrom', 'Choose the measurements that the piece is made to.');
  const covers = ladder && readCover(ladder, (box) => typed[box], refuse);
  const reductionPct = accept('reduction', readReduction(typed.reduction));
  const convention = readConvention(typed.convention) ?? refuse('convention', 'Choose how the reduction is counted.');
  const allowance =
    typed.allowance.trim() === '' || /^0+$/.test(typed.allowance.trim())
      ? null
      : accept('allowance', readLength(typed.allowance, ladder?.unit ?? 'cm'));
  const lifeDays = accept('lifeDays', readDays(typed.lifeDays, 1));
  const leadDays = accept('leadDays', readDays(typed.leadDays, 0));
  const firstWorn = day('firstWorn');
  const firstFit = day('firstFit');
  const retired = day('retired');
  if (ladder && firstWorn && firstWorn < ladder.day) refuse('firstWorn', 'This is before the measurements it was made to.');
  if (firstFit && ladder && firstFit < ladder.day) refuse('firstFit', 'This is before the measurements it was made to.');
  if (retired && ladder && retired < (firstWorn ?? ladder.day)) refuse('retired', 'This is before it was worn.');
  const retiredReason = typed.retiredReason.trim() || null;
  if (retired && !retiredReason) refuse('retiredReason', 'Say why: worn out, outgrown, lost, damaged, condition changed, stopped.');
  if (retiredReason && !retired && !errors.retired) refuse('retired', 'Type the day it was taken out of use.');

  if (
    Object.keys(errors).length > 0 ||
    !ladder ||
    !covers ||
    reductionPct === null ||
    !convention ||
    lifeDays === null ||
    leadDays === null
  ) {
    return { kind: 'refused', errors };
  }
  const { limb, side, day: cutFrom } = ladder;
  return {
    kind: 'read',
    ladder,
    retiredReason,
    piece: {
      piece,
      limb,
      side,
      covers,
      cutFrom,
      reductionPct,
      convention,
      allowance,
      firstWorn,
      firstFit,
      lifeDays,
      leadDays,
      retired,
    },
  };
}

/** A piece as the form shows it again. */
export function pieceFormOf(piece: Piece & { readonly retiredReason?: string | null }, key: string): TypedPieceForm {
  return {
    piece: piece.piece,
    cutFrom: key,
    ...coverAsTyped(piece.covers),
    reduction: String(piece.reductionPct),
    convention: piece.convention,
    allowance: piece.allowance ? lengthAsTyped(piece.allowance) : '',
    firstWorn: piece.firstWorn ?? '',
    firstFit: piece.firstFit ?? '',
    lifeDays: String(piece.lifeDays),
    leadDays: String(piece.leadDays),
    retired: piece.retired ?? '',
    retiredReason: piece.retiredReason ?? '',
  };
}
