import { distalLandmark, limbInWords, placeInWords } from '../../ladder/limb';
import { pct, signedPct } from '../../prompts/show-figures';
import type { Visit } from '../../record/patient-record';
import { lengthAsTyped } from '../../record/read-cut';
import { showDay } from '../../units/calendar-day';
import { inUnit, type LengthUnit } from '../../units/length';
import { showVolume } from '../../units/volume';
import type { GirthPair } from './girth-rows';
import type { LetterEvidence, LetterFacts } from './letter-facts';
import { EVIDENCE_WORDS as WORDS } from './letter-words';

/** A table of a letter, whole as text. The first cell of a row names the row. */
export type LetterTable = { readonly caption: string; readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] };

/** Sentences and tables of what was measured; nobody edits these. */
export type EvidenceShown = { readonly sentences: readonly string[]; readonly tables: readonly LetterTable[] };

/**
 * What was measured for a letter: girths old and new at the same places, volume, weight and height, each with its day, measurer and error.
 *
 * Shape: the facts of a letter. What is not on record is a sentence, never an empty cell.
 */
export function letterEvidence(facts: LetterFacts): EvidenceShown {
  const { evidence } = facts;
  const visits = [facts.cutVisit, facts.newVisit].flatMap((one) => one ?? []);
  const days = visits.filter((one, index) => visits.findIndex((other) => other.day === one.day) === index);
  const body = days.length > 0 ? [bodyTable(days)] : [];
  const missing = days.flatMap((one) => [
    ...(one.weight ? [] : [WORDS.noWeight(showDay(one.day))]),
    ...(one.height ? [] : [WORDS.noHeight(showDay(one.day))]),
  ]);
  const excess = excessInWords(facts);
  if (!evidence) return { sentences: [whyNone(facts), ...excess, ...missing], tables: body };
  const { earlier, later, alignment } = evidence.change;
  const taped = WORDS.taped(showDay(earlier.visit.day), measuredBy(earlier.visit), showDay(later.visit.day), measuredBy(later.visit));
  const change = signedPct(evidence.volumeChange);
  const smallest = pct(evidence.smallestRealChange);
  const volumes = volumeTable(evidence);
  const sentences = [
    Math.abs(evidence.volumeChange) > evidence.smallestRealChange ? WORDS.exceeds(change, smallest) : WORDS.within(change, smallest),
    ...excess,
    taped,
    WORDS.method(landmarksInWords(alignment.earlierMm.length)),
    ...(alignment.inferred ? [WORDS.inferred] : []),
    ...(volumes ? [] : [WORDS.noVolume]),
    ...missing,
  ];
  return { sentences, tables: [girthTable(evidence), ...(volumes ? [volumes] : []), ...body] };
}

function whyNone({ piece, cutVisit, newVisit }: LetterFacts): string {
  const limb = limbInWords(piece.limb, piece.side);
  if (!cutVisit) return WORDS.noOldLadder(limb, showDay(piece.cutFrom));
  if (!newVisit || newVisit.day <= piece.cutFrom) return WORDS.noNewLadder(limb, showDay(piece.cutFrom));
  return WORDS.notComparable(showDay(piece.cutFrom), showDay(newVisit.day));
}

function excessInWords({ excess, newVisit, piece }: LetterFacts): string[] {
  if (!newVisit) return [];
  const day = showDay(newVisit.day);
  if (!excess) return [WORDS.noExcess(day)];
  const unit = newVisit.ladders.find((one) => one.limb === piece.limb && one.side === piece.side)?.unit ?? 'cm';
  const span = `${decimals(excess.fromMm, unit)}–${decimals(excess.toMm, unit)} ${unit} above the ${placeInWords(distalLandmark(piece.limb))}`;
  const limbs = [piece.side, piece.side === 'left' ? 'right' : 'left'] as const;
  const [own, other] = limbs.map((side) => limbInWords(piece.limb, side)) as [string, string];
  const volumes = [excess.volumeMl, excess.otherMl].map((one) => showVolume(one)) as [string, string];
  return [WORDS.excess(day, own, volumes[0], other, volumes[1], span, signedPct(excess.share), pct(excess.error))];
}

function girthTable({ change, girths }: LetterEvidence): LetterTable {
  const { earlier, later } = change;
  const { unit, zero } = later.ladder;
  const [old, now] = [showDay(earlier.visit.day), showDay(later.visit.day)];
  return {
    caption: WORDS.girths(unit, old, measuredBy(earlier.visit), now, measuredBy(later.visit)),
    heads: WORDS.girthHeads(placeInWords(zero), old, now),
    rows: girths.map((row) => girthCells(row, unit)),
  };
}

function girthCells({ distance, landmark, now, nowMm, beforeMm, errorMm }: GirthPair, unit: LengthUnit): string[] {
  const place = `${lengthAsTyped(distance)}${landmark ? `, ${landmark}` : ''}`;
  if (beforeMm === null || errorMm === null) return [place, WORDS.notTaped, lengthAsTyped(now), WORDS.none, WORDS.none, WORDS.none];
  return [
    place,
    `${decimals(beforeMm, unit)} ${unit}`,
    lengthAsTyped(now),
    signedLength(nowMm - beforeMm, unit),
    signedPct(nowMm / beforeMm - 1),
    decimals(errorMm, unit),
  ];
}

/** A difference in a unit with its sign. */
function signedLength(differenceMm: number, unit: LengthUnit): string {
  const text = decimals(Math.abs(differenceMm), unit);
  return Number(text) === 0 ? text : `${differenceMm < 0 ? '−' : '+'}${text}`;
}

/** Tenths of a centimetre, hundredths of an inch: figures that were computed, where those that were typed stand as typed. */
function decimals(lengthMm: number, unit: LengthUnit): string {
  return inUnit(lengthMm, unit).toFixed(unit === 'in' ? 2 : 1);
}

function volumeTable({ change, before, now }: LetterEvidence): LetterTable | null {
  if (!before || !now) return null;
  const row = (visit: Visit, one: typeof before): string[] => [
    showDay(visit.day),
    measuredBy(visit),
    showVolume(one.volumeMl),
    showVolume(one.errorMl),
  ];
  return {
    caption: WORDS.volumes(pct(change.measured.shared.share, 0)),
    heads: WORDS.volumeHeads,
    rows: [row(change.earlier.visit, before), row(change.later.visit, now)],
  };
}

function bodyTable(visits: readonly Visit[]): LetterTable {
  return {
    caption: WORDS.body,
    heads: WORDS.bodyHeads,
    rows: visits.map((one) => [
      showDay(one.day),
      measuredBy(one),
      one.weight ? massAsTyped(one.weight) : WORDS.notRecorded,
      one.height ? lengthAsTyped(one.height) : WORDS.notRecorded,
    ]),
  };
}

function massAsTyped({ text, unit }: NonNullable<Visit['weight']>): string {
  return /[a-z]/i.test(text) ? text : `${text} ${unit}`;
}

function measuredBy({ measurer }: Visit): string {
  return measurer ? WORDS.by(measurer) : WORDS.nobody;
}

function landmarksInWords(count: number): string {
  return count === 1 ? 'one shared landmark' : `${count} shared landmarks`;
}
