import { lengthAsTyped } from '../../forms/read-cut';
import { distalLandmark, type LandmarkId, limbInWords, otherSide, placeInWords } from '../../ladder/limb';
import { stretchOnTape } from '../../ladder/place-on-tape';
import { measureInWords } from '../../parts/measure';
import { pct, signedPct } from '../../prompts/show-figures';
import { limbOf, type Visit } from '../../record/patient-record';
import { rulerOf } from '../../trend/limb-series';
import { showDay } from '../../units/calendar-day';
import { capitalized } from '../../units/capitalized';
import { inUnit, type LengthUnit } from '../../units/length';
import { showVolume } from '../../units/volume';
import type { GirthPair } from './girth-rows';
import type { LetterEvidence, LetterFacts } from './letter-facts';
import { isBorneOut, type LetterReason } from './letter-reasons';
import { EVIDENCE_WORDS as WORDS } from './letter-words';
import type { MeasurePair } from './measure-pairs';

/** A table of a letter, whole as text. The first cell of a row names the row. */
export type LetterTable = { readonly caption: string; readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] };

/** Sentences and tables of what was measured; nobody edits these. */
export type EvidenceShown = { readonly sentences: readonly string[]; readonly tables: readonly LetterTable[] };

/**
 * What was measured for a letter: circumferences old and new at the same places, volume, weight and height, each with its day and measurer.
 *
 * Errors, the sentence on them and the length stand only where the letter says that the condition changed or the piece was outgrown, or while no reason is chosen: a torn piece
 * needs no word on the error of a tape. Of what is not on record nothing is said (`letterGaps`).
 * Shape: the facts of a letter, its reason or null.
 */
export function letterEvidence(facts: LetterFacts, reason: LetterReason | null): EvidenceShown {
  const { evidence } = facts;
  const withError = reason === null || isBorneOut(reason);
  const visits = [facts.cutVisit, facts.newVisit].flatMap((one) => one ?? []);
  const days = visits.filter((one, index) => visits.findIndex((other) => other.day === one.day) === index);
  const body = bodyTable(days);
  const excess = excessInWords(facts, withError);
  const measures = measureTable(facts, withError);
  if (!evidence) return { sentences: excess, tables: [...measures, ...body] };
  const { earlier, later, alignment } = evidence.change;
  const [old, now] = [earlier.visit, later.visit];
  const volumes = volumeTable(evidence, withError);
  const smallest = pct(evidence.smallestRealChange);
  const sentences = [
    ...(withError
      ? [
          `${WORDS.change(signedPct(evidence.volumeChange))} ${(Math.abs(evidence.volumeChange) > evidence.smallestRealChange ? WORDS.exceeds : WORDS.within)(smallest)}`,
          ...lengthInWords(evidence),
        ]
      : []),
    ...excess,
    WORDS.measured(showDay(old.day), measuredBy(old), showDay(now.day), measuredBy(now)),
    WORDS.method(landmarksInWords(alignment.earlierMm.length)),
    ...(withError ? [WORDS.errors] : []),
    ...(alignment.inferred ? [WORDS.inferred] : []),
  ];
  return { sentences, tables: [girthTable(evidence, withError), ...measures, ...volumes, ...body] };
}

function excessInWords({ excess, newVisit, piece }: LetterFacts, withError: boolean): string[] {
  const of = limbOf(piece);
  if (!newVisit || !excess || !of) return [];
  const day = showDay(newVisit.day);
  const unit = newVisit.ladders.find((one) => one.limb === piece.limb && one.side === piece.side)?.unit ?? 'cm';
  const span = `${decimals(excess.fromMm, unit)}–${decimals(excess.toMm, unit)} ${unit} above the ${placeInWords(distalLandmark(of.limb))}`;
  const limbs = [of.side, otherSide(of.side)] as const;
  const [own, other] = limbs.map((side) => limbInWords(of.limb, side)) as [string, string];
  const volumes = [excess.volumeMl, excess.otherMl].map((one) => showVolume(one)) as [string, string];
  const error = withError ? pct(excess.error) : null;
  return [WORDS.excess(day, own, volumes[0], other, volumes[1], span, signedPct(excess.share), error)];
}

/** The length between the outermost landmarks that were marked both times, then and now; nothing where fewer than two were. */
function lengthInWords({ change: { earlier, later } }: LetterEvidence): string[] {
  const marked = ({ landmarks }: typeof earlier.placed) => [...landmarks].flatMap(([id, { inferred }]) => (inferred ? [] : [id]));
  const both = marked(earlier.placed).filter((id) => marked(later.placed).includes(id));
  const placeOn = ({ placed }: typeof earlier, id: LandmarkId): number => placed.landmarks.get(id)?.placeMm ?? Number.NaN;
  const [from, ...others] = both.sort((one, other) => placeOn(earlier, one) - placeOn(earlier, other));
  const to = others.at(-1);
  if (!from || !to) return [];
  const { unit } = later.ladder;
  const [old, now] = [earlier, later].map((at) => placeOn(at, to) - placeOn(at, from)) as [number, number];
  return [
    WORDS.length(
      placeInWords(from),
      placeInWords(to),
      `${decimals(old, unit)} ${unit}`,
      `${decimals(now, unit)} ${unit}`,
      signedPct(now / old - 1),
    ),
  ];
}

function girthTable({ change, girths }: LetterEvidence, withError: boolean): LetterTable {
  const { earlier, later } = change;
  const { unit, zero } = later.ladder;
  const [old, now] = [showDay(earlier.visit.day), showDay(later.visit.day)];
  const columns = withError ? 6 : 5;
  return {
    caption: `${WORDS.girths(unit, old, measuredBy(earlier.visit), now, measuredBy(later.visit))}${girths.every(isCompared) ? '' : ` ${WORDS.notCompared}`}`,
    heads: WORDS.girthHeads(placeInWords(zero), old, now).slice(0, columns),
    rows: girths.map((row) => girthCells(row, unit).slice(0, columns)),
  };
}

/** Hand, foot and trunk at both visits, in the unit of the new figure; no table where none was taken twice. */
function measureTable({ measures, cutVisit, newVisit }: LetterFacts, withError: boolean): LetterTable[] {
  if (measures.length === 0 || !cutVisit || !newVisit) return [];
  const columns = withError ? 6 : 5;
  const [old, now] = [showDay(cutVisit.day), showDay(newVisit.day)];
  return [
    {
      caption: WORDS.measures(old, measuredBy(cutVisit), now, measuredBy(newVisit)),
      heads: WORDS.measureHeads(old, now).slice(0, columns),
      rows: measures.map((pair) => measureCells(pair).slice(0, columns)),
    },
  ];
}

function measureCells({ measure, before, now, beforeMm, nowMm, errorMm }: MeasurePair): string[] {
  const { unit } = now.length;
  return [
    capitalized(measureInWords(measure, now.side)),
    lengthAsTyped(before.length),
    lengthAsTyped(now.length),
    `${signedLength(nowMm - beforeMm, unit)} ${unit}`,
    signedPct(nowMm / beforeMm - 1),
    `${decimals(errorMm, unit)} ${unit}`,
  ];
}

function isCompared({ beforeMm, errorMm }: GirthPair): boolean {
  return beforeMm !== null && errorMm !== null;
}

function girthCells({ distance, landmark, now, nowMm, beforeMm, recorded, errorMm }: GirthPair, unit: LengthUnit): string[] {
  const place = `${lengthAsTyped(distance)}${landmark ? `, ${landmark}` : ''}`;
  if (beforeMm === null || errorMm === null) {
    const old = recorded ? WORDS.asRecorded(lengthAsTyped(recorded.girth), lengthAsTyped(recorded.distance)) : WORDS.notMeasured;
    return [place, old, lengthAsTyped(now), WORDS.none, WORDS.none, WORDS.none];
  }
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

function volumeTable({ change, before, now }: LetterEvidence, withError: boolean): LetterTable[] {
  if (!before || !now) return [];
  const columns = withError ? 4 : 3;
  const row = (visit: Visit, one: typeof before): string[] =>
    [showDay(visit.day), byCell(visit), showVolume(one.volumeMl), showVolume(one.errorMl)].slice(0, columns);
  const { fromMm, toMm } = change.measured.shared.later;
  const stretch = stretchOnTape(fromMm, toMm, rulerOf(change.later));
  return [
    {
      caption: WORDS.volumes(stretch, pct(change.measured.shared.share, 0)),
      heads: WORDS.volumeHeads.slice(0, columns),
      rows: [row(change.earlier.visit, before), row(change.later.visit, now)],
    },
  ];
}

/** Weight and height of the days that have one or both; no table where none has. */
function bodyTable(visits: readonly Visit[]): LetterTable[] {
  const weighed = visits.filter(({ weight, height }) => weight || height);
  if (weighed.length === 0) return [];
  const rows = weighed.map((one) => [
    showDay(one.day),
    byCell(one),
    one.weight ? massAsTyped(one.weight) : WORDS.noFigure,
    one.height ? lengthAsTyped(one.height) : WORDS.noFigure,
  ]);
  return [{ caption: WORDS.body, heads: WORDS.bodyHeads, rows }];
}

function massAsTyped({ text, unit }: NonNullable<Visit['weight']>): string {
  return /[a-z]/i.test(text) ? text : `${text} ${unit}`;
}

/** ` by RA`, or nothing where no name is on record. */
function measuredBy({ measurer }: Visit): string {
  return measurer ? WORDS.by(measurer) : '';
}

function byCell({ measurer }: Visit): string {
  return measurer ? WORDS.by(measurer).trim() : WORDS.onRecord;
}

function landmarksInWords(count: number): string {
  return count === 1 ? 'one shared landmark' : `${count} shared landmarks`;
}
