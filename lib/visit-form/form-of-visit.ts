import type { Ladder, Rung } from '../ladder/ladder';
import { distalLandmark, isLandmarkOf, type Side } from '../ladder/limb';
import type { Visit } from '../record/patient-record';
import { exactText } from '../units/exact-text';
import type { LengthUnit, TypedLength } from '../units/length';
import type { MassUnit } from '../units/mass';
import { readLength } from '../units/read-length';
import { endLandmark } from './entry-rows';
import { partsOf } from './read-measures';
import { cellKey, type ExtraPlace, type GirthCell, type LimbSheet, markKey, type VisitForm } from './visit-form';

type KeptLadder = Ladder & { readonly intervalText?: string | null };
type KeptVisit = Omit<Visit, 'ladders'> & { readonly ladders: readonly KeptLadder[] };

/** The units a form shows its boxes in. */
export type FormUnits = { readonly lengthUnit: LengthUnit; readonly massUnit: MassUnit };

/**
 * A stored visit as the form it could have been typed on, every figure as its text: what a correction starts from.
 *
 * Reading the form gives the same visit again. Ladders of one limb with the same set-up become one sheet.
 */
export function formOfVisit(visit: KeptVisit, units: FormUnits): VisitForm {
  return {
    day: visit.day,
    time: visit.time ?? '',
    posture: visit.posture ?? '',
    measurer: visit.measurer ?? '',
    height: visit.height?.text ?? '',
    heightUnit: visit.height?.unit ?? units.lengthUnit,
    weight: visit.weight?.text ?? '',
    massUnit: visit.weight?.unit ?? units.massUnit,
    note: visit.note ?? '',
    sheets: alike(visit.ladders).map(filledSheet),
    ...(visit.measures?.length
      ? {
          parts: partsOf(visit.measures),
          measures: visit.measures.map(({ length, again, ...place }) => ({
            ...place,
            text: length.text,
            unit: length.unit,
            ...(again ? { again: inUnitOf(again, length.unit) } : {}),
          })),
        }
      : {}),
    ...(visit.keptBody?.length ? { keptBody: visit.keptBody } : {}),
    ...(visit.occasion ? { occasion: visit.occasion } : {}),
    readings: (visit.readings ?? []).map(({ name, length }) => ({ name, text: length.text, unit: length.unit })),
  };
}

/** The text of a length for a box of that unit: with its own unit where it was typed in the other. */
function inUnitOf({ text, unit }: TypedLength, box: LengthUnit): string {
  return unit === box || /[a-z"″]/i.test(text) ? text : `${text} ${unit}`;
}

/** An empty sheet with the set-up of these ladders: what the next visit starts from. Measured figures are left out. */
export function carriedSheets(ladders: readonly KeptLadder[]): LimbSheet[] {
  return alike(ladders).map((group) => {
    const typed = filledSheet(group);
    const filled = typed.interval === '' ? { ...typed, interval: commonGap(group[0] as KeptLadder) } : typed;
    const gridRows = group.map((ladder) => ladder.rungs.filter((rung) => isOnGrid(rung, filled)).length);
    const fromZero = group.some((ladder) => ladder.rungs.some((rung) => rung.distance.nm === 0));
    const count = Math.max(filled.interval === '' ? 0 : 4, ...gridRows);
    return { ...filled, cells: {}, marks: {}, extras: [], apart: filled.apart, fromZero, count, more: 0 };
  });
}

/** The step most rungs were taped at, for a ladder that came without its interval; '' when no step is commoner than half. */
function commonGap(ladder: KeptLadder): string {
  const places = ladder.rungs.map((rung) => rung.distance.nm as number).sort((one, other) => one - other);
  const gaps = places.slice(1).map((place, index) => place - (places[index] as number));
  const common = [...new Set(gaps)].find((gap) => gaps.filter((one) => one === gap).length * 2 > gaps.length);
  return common ? exactText(common, ladder.unit) : '';
}

function isOnGrid(rung: Rung, sheet: LimbSheet): boolean {
  const interval = readLength(sheet.interval, sheet.unit, true);
  return interval.kind === 'read' && rung.distance.nm % interval.value.nm === 0;
}

/** Ladders grouped where they share limb, zero, direction, unit and interval, in the order they were kept; right before left. */
function alike(ladders: readonly KeptLadder[]): KeptLadder[][] {
  const groups = new Map<string, KeptLadder[]>();
  for (const ladder of ladders) {
    const key = [ladder.limb, ladder.zero, ladder.direction, ladder.unit, ladder.intervalText ?? ''].join('|');
    const group = groups.get(key);
    if (group) group.push(ladder);
    else groups.set(key, [ladder]);
  }
  return [...groups.values()].map((group) => group.sort((one, other) => other.side.localeCompare(one.side)));
}

function filledSheet(group: readonly KeptLadder[]): LimbSheet {
  const first = group[0] as KeptLadder;
  const { limb, zero, direction, unit } = first;
  const interval = readableInterval(first);
  const bare = {
    limb,
    zero,
    direction,
    unit,
    interval,
    sides: group.map((ladder) => ladder.side),
    count: 0,
    more: 0,
    extras: [],
    cells: {},
  };
  const empty: LimbSheet = { ...bare, fromZero: false, endRow: false, apart: false, marks: {} };
  const marks: Record<string, string> = {};
  const cells: Record<string, GirthCell> = {};
  const extras: ExtraPlace[] = [];
  let endRow = false;
  for (const ladder of group) {
    for (const { landmark, distance } of ladder.landmarks) marks[markKey(ladder.side, landmark)] = distance.text;
    if (ladder.floorToFold) marks[markKey(ladder.side, 'floor')] = ladder.floorToFold.text;
    const end = ladder.landmarks.find(({ landmark }) => landmark === endLandmark(empty))?.distance.nm;
    for (const rung of ladder.rungs) {
      const atEnd = end === rung.distance.nm && !isOnGrid(rung, empty);
      endRow ||= atEnd;
      cells[cellKey(ladder.side, atEnd ? 'end' : String(rung.distance.nm))] = cellOf(rung);
      const spelled = rung.distance.text !== exactText(rung.distance.nm, unit);
      if (!atEnd && (spelled || !isOnGrid(rung, empty))) extras.push({ place: rung.distance.text, name: '' });
    }
  }
  const usual = direction === 'up' || distalLandmark(limb) !== 'ankle-crease';
  return {
    ...empty,
    marks,
    cells,
    extras: distinct(extras),
    endRow: endRow || (usual && isLandmarkOf(limb, zero)),
    apart: differ(group, marks),
  };
}

function readableInterval(ladder: KeptLadder): string {
  const text = ladder.intervalText ?? '';
  return readLength(text, ladder.unit, true).kind === 'read' ? text : '';
}

function cellOf(rung: Rung): GirthCell {
  return {
    text: rung.girth?.text ?? '',
    ...(rung.again ? { again: rung.again.text } : {}),
    ...(rung.kept ? { kept: rung.kept } : {}),
    ...(rung.note ? { note: rung.note } : {}),
  };
}

function distinct(extras: readonly ExtraPlace[]): ExtraPlace[] {
  return [...new Map(extras.map((extra) => [extra.place, extra])).values()];
}

function differ(group: readonly KeptLadder[], marks: Readonly<Record<string, string>>): boolean {
  const of = (side: Side) =>
    Object.entries(marks)
      .filter(([key]) => key.startsWith(`${side}/`))
      .map(([key, text]) => `${key.slice(side.length)}=${text}`)
      .sort()
      .join();
  const [one, other] = group;
  return one !== undefined && other !== undefined && of(one.side) !== of(other.side);
}
