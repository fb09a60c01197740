import type { PatientAnalysis } from '../../analysis/analyse-patient';
import type { AnalysedPiece } from '../../analysis/analyse-piece';
import { tooOldToOrder } from '../../garments/figures-for-order';
import { fitsOfSet } from '../../garments/limbs-of-set';
import { isHeldBack } from '../../garments/piece-stage';
import { coverKey } from '../../garments/wear';
import { limbInWords } from '../../ladder/limb';
import { placeOnTape } from '../../ladder/place-on-tape';
import { isNoAnswer } from '../../outcome';
import { rulerOf } from '../../trend/limb-series';
import { addDays, type CalendarDay, showDay, showWeekday } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
import { showLengthWithUnit } from '../../units/show-length';
import { endOfFit, outgrownInWords, roomSizes } from '../outlook-in-words';
import type { Prompt, Rule } from '../prompt';
import { coverInWords } from '../show-figures';

/**
 * Piece at or near the end of its life → order by. Opens a fortnight before the order-by day. Silent where a newer piece of the same
 * cover is in use or on its way and lasts longer.
 */
export const endOfLifeNear: Rule = {
  id: 'end-of-life',
  version: 2,
  apply: (analysis) =>
    analysis.pieces.flatMap((one) => {
      const { pieces, policy, today } = analysis;
      if (isNoAnswer(one.orderBy) || one.orderBy.because !== 'end of life' || isFollowed(one, pieces, today)) return [];
      if (today < addDays(one.orderBy.day, -policy.endOfLifeLookDays)) return [];
      return [orderPrompt(one, ['endOfLifeLookDays', 'measuringDays'], analysis)];
    }),
};

/** Outgrow date before the end of life → order by, with room to grow. Silent as `endOfLifeNear` is, and of a piece made to named measures alone, of which `part-outgrown` speaks. */
export const outgrownBeforeWornOut: Rule = {
  id: 'outgrown-before-worn-out',
  version: 3,
  apply: (analysis) =>
    analysis.pieces.flatMap((one) => {
      const { pieces, policy, today } = analysis;
      if (
        isNoAnswer(one.orderBy) ||
        one.orderBy.because !== 'outgrown' ||
        one.piece.covers === 'measures' ||
        isFollowed(one, pieces, today)
      )
        return [];
      if (today < addDays(one.orderBy.day, -policy.endOfLifeLookDays)) return [];
      return [orderPrompt(one, ['bandHigh', 'bandLow', 'lengthDriftPct', 'measuringDays'], analysis)];
    }),
};

/** Whether another piece stands in for this one (`followerOf`), so that the next order is counted from that. */
function isFollowed(one: AnalysedPiece, all: readonly AnalysedPiece[], today: CalendarDay): boolean {
  return followerOf(one, all, today) !== undefined;
}

/**
 * The other piece of the same limb and cover, in use or not worn yet, from which the next order is counted: the one that lasts longest, where it lasts longer than this one.
 * Of two that last alike the later in the list counts; `longer` says which of the two it is.
 */
export function followerOf(
  one: AnalysedPiece,
  all: readonly AnalysedPiece[],
  today: CalendarDay,
): { readonly piece: string; readonly until: CalendarDay; readonly longer: boolean } | undefined {
  const end = lastsUntil(one, today);
  const cover = coverKey(one.piece);
  const others = all.filter((other, index) => {
    if (other === one || !other.inUse || isHeldBack(other.piece) || coverKey(other.piece) !== cover) return false;
    const otherEnd = lastsUntil(other, today);
    return otherEnd > end || (otherEnd === end && index > all.indexOf(one));
  });
  const last = others
    .map((other) => ({ piece: other.piece.piece, until: lastsUntil(other, today) }))
    .reduce<{ piece: string; until: CalendarDay } | undefined>(
      (found, other) => (found && found.until > other.until ? found : other),
      undefined,
    );
  return last && { ...last, longer: last.until > end };
}

/** The day a piece is done: worn out or, at the earliest, outgrown. One that nobody has worn yet is taken to start its life today. */
function lastsUntil({ piece, endOfLife, outgrow }: AnalysedPiece, today: CalendarDay): CalendarDay {
  const wornOut = isNoAnswer(endOfLife) ? addDays(today, piece.lifeDays) : endOfLife;
  const outgrown = isNoAnswer(outgrow) ? null : outgrow.earlyDay;
  return outgrown !== null && outgrown < wornOut ? outgrown : wornOut;
}

function orderPrompt(
  one: AnalysedPiece,
  limits: Prompt['limits'],
  { record, policy, today }: PatientAnalysis,
): Omit<Prompt, 'rule' | 'ruleVersion'> {
  const { piece, fit, outgrow, endOfLife, orderBy } = one;
  const { room, onLimb } = mostRoom(one);
  if (isNoAnswer(orderBy)) throw new Error('an order prompt needs an order-by day');
  const unit: LengthUnit = isNoAnswer(fit) ? 'cm' : fit.latest.ladder.unit;
  const old = tooOldToOrder(record, piece, orderBy.day, policy, today);
  const fits = !isNoAnswer(outgrow) && outgrow.earlyDay ? [`${outgrownInWords(outgrow)}${outlookOn(one)}.`] : [];
  const lasts = isNoAnswer(endOfLife)
    ? endOfLife.noAnswer
    : `Replacement due ${showDay(endOfLife)}, ${piece.lifeDays} days after first wear.`;
  // What gave the day comes first: it is the one sentence that Today shows.
  const ends = orderBy.because === 'end of life' ? [lasts, ...fits] : [...fits, lasts];
  const facts = [
    ...ends,
    `Making takes ${piece.leadDays} days; it covers ${coverInWords(piece.covers)}.`,
    ...(!isNoAnswer(room) && room.highMm > 0 ? [`Room to grow${onLimb}: ${roomSizes(room, unit)}.`] : []),
  ];
  return {
    action: 'order',
    due: orderBy.day,
    title:
      orderBy.day < today
        ? `Consider ordering the next ${limbInWords(piece.limb, piece.side).replace(' ', '-')} piece now: its order-by day was ${showWeekday(orderBy.day)}.`
        : `Consider ordering the next ${limbInWords(piece.limb, piece.side).replace(' ', '-')} piece by ${showWeekday(orderBy.day)}.`,
    facts,
    ...(old ? { before: old.first } : {}),
    figures: figuresOf(one, unit),
    missing: [...new Set([outgrow, room].flatMap((one) => (isNoAnswer(one) ? [one.noAnswer] : [])))],
    limits: old ? [...limits, 'orderLadderDays'] : limits,
    cause: `${limbInWords(piece.limb, piece.side)} ${piece.covers === 'measures' ? (piece.garment?.form ?? '') : coverInWords(piece.covers)}: replacement`,
    about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
    inputs: `${piece.piece} ${orderBy.day} ${orderBy.because}`,
  };
}

function figuresOf(one: AnalysedPiece, unit: LengthUnit): NonNullable<Prompt['figures']> {
  const { piece, outgrow, endOfLife } = one;
  const { room, onLimb: roomOn } = mostRoom(one);
  const figures: { value: string; label: string }[] = [];
  const places = fitsOfSet(one).flatMap(({ fit, onLimb }) => fit.places.map((place) => ({ place, fit, onLimb })));
  const [tightest] = places.sort((least, most) => most.place.tightness - least.place.tightness);
  if (tightest) {
    const { place, fit, onLimb } = tightest;
    figures.push({
      value: place.tightness.toFixed(2),
      label: `× the tightness as fitted, calculated, not a pressure; tightest place${onLimb}, ${placeOnTape(place.heightMm, rulerOf(fit.cut.visit), unit)}\u202f${unit}`,
    });
  }
  if (!isNoAnswer(outgrow) && outgrow.earlyDay) {
    const middle = outgrow.day && outgrow.day !== outgrow.earlyDay ? `; expected from ${showDay(outgrow.day)}` : '';
    figures.push({
      value: showDay(outgrow.earlyDay),
      label: `piece ${piece.piece} possibly ${endOfFit(outgrow)}${outlookOn(one)} from this day${middle}`,
    });
  }
  if (!isNoAnswer(endOfLife)) figures.push({ value: showDay(endOfLife), label: `replacement due, ${piece.lifeDays} days from first wear` });
  figures.push({ value: `${piece.leadDays} days`, label: 'to make and deliver' });
  if (!isNoAnswer(room) && room.highMm > 0) {
    figures.push({
      value: `${showLengthWithUnit(room.middleMm, unit)} – ${showLengthWithUnit(room.highMm, unit)}`,
      label: `room to grow${roomOn}; the larger is enough nine times in ten`,
    });
  }
  return figures;
}

/** ` on the left leg` where another limb of the set than the piece's own ends its fit first. */
function outlookOn({ piece, outgrowOn: { limb, side } }: AnalysedPiece): string {
  return limb === piece.limb && side === piece.side ? '' : ` on the ${limbInWords(limb, side)}`;
}

/** The most room that any limb of the set asks for, and which. */
function mostRoom({ piece, room, ofSet }: AnalysedPiece): { readonly room: AnalysedPiece['room']; readonly onLimb: string } {
  const known = ofSet.flatMap((one) => (isNoAnswer(one.room) ? [] : [{ ...one, room: one.room }]));
  const [most] = known.sort((one, other) => other.room.highMm - one.room.highMm);
  if (!most) return { room, onLimb: '' };
  const isOwn = most.limb === piece.limb && most.side === piece.side;
  return { room: most.room, onLimb: isOwn ? '' : ` on the ${limbInWords(most.limb, most.side)}` };
}
