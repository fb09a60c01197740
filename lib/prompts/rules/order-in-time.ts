import type { AnalysedPiece } from '../../analysis/analyse-patient';
import { isNoAnswer } from '../../outcome';
import { addDays, showDay, showWeekday } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
import { showLengthWithUnit } from '../../units/show-length';
import type { Prompt, Rule } from '../prompt';
import { coverInWords, pieceInWords } from '../show-figures';

/** Piece at or near the end of its life → order by. Opens a fortnight before the order-by day. */
export const endOfLifeNear: Rule = {
  id: 'end-of-life',
  version: 1,
  apply: ({ pieces, policy, today }) =>
    pieces.flatMap((one) => {
      if (isNoAnswer(one.orderBy) || one.orderBy.because !== 'end of life') return [];
      if (today < addDays(one.orderBy.day, -policy.endOfLifeLookDays)) return [];
      return [orderPrompt(one, ['endOfLifeLookDays', 'measuringDays'])];
    }),
};

/** Outgrow date before the end of life → order by, with room to grow. */
export const outgrownBeforeWornOut: Rule = {
  id: 'outgrown-before-worn-out',
  version: 1,
  apply: ({ pieces, policy, today }) =>
    pieces.flatMap((one) => {
      if (isNoAnswer(one.orderBy) || one.orderBy.because !== 'outgrown') return [];
      if (today < addDays(one.orderBy.day, -policy.endOfLifeLookDays)) return [];
      return [orderPrompt(one, ['bandHigh', 'bandLow', 'growthLengthSteps', 'measuringDays'])];
    }),
};

function orderPrompt(one: AnalysedPiece, limits: Prompt['limits']): Omit<Prompt, 'rule' | 'ruleVersion'> {
  const { piece, fit, outgrow, room, endOfLife, orderBy } = one;
  if (isNoAnswer(orderBy)) throw new Error('an order prompt needs an order-by day');
  const unit: LengthUnit = isNoAnswer(fit) ? 'cm' : fit.latest.ladder.unit;
  const facts: string[] = [];
  if (!isNoAnswer(outgrow) && outgrow.earlyDay) {
    const middle = outgrow.day ? `${showDay(outgrow.day)} in the middle` : `not by ${showDay(outgrow.lookedUntil)} in the middle`;
    facts.push(`Outgrown ${showDay(outgrow.earlyDay)} at the earliest, ${middle}.`);
  }
  facts.push(isNoAnswer(endOfLife) ? endOfLife.noAnswer : `Wear life ends ${showDay(endOfLife)}, ${piece.lifeDays} days after first wear.`);
  facts.push(`Making takes ${piece.leadDays} days; it covers ${coverInWords(piece.covers)}.`);
  if (!isNoAnswer(room) && room.highMm > 0) {
    facts.push(
      `Room to grow ${showLengthWithUnit(room.middleMm, unit)}, ${showLengthWithUnit(room.highMm, unit)} at the 90\u202f% estimate.`,
    );
  }
  return {
    action: 'order',
    due: orderBy.day,
    title: `Consider ordering the next ${piece.side}-${piece.limb} piece by ${showWeekday(orderBy.day)}.`,
    facts,
    missing: isNoAnswer(outgrow) ? [outgrow.noAnswer] : [],
    limits,
    cause: `${piece.side} ${piece.limb} ${coverInWords(piece.covers)}: replacement`,
    about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
    inputs: `${piece.piece} ${orderBy.day} ${orderBy.because}`,
  };
}
