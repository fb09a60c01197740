import fc from 'fast-check';
import { ENDED_AS, type Phase } from '@/lib/course/phases';
import { GARMENT_FORMS, type GarmentSpec } from '@/lib/garment-forms/garment-catalogue';
import type { Ladder, Rung } from '@/lib/ladder/ladder';
import { LIMBS, type LimbKind } from '@/lib/ladder/limb';
import { MEASURES } from '@/lib/parts/catalogue';
import type { Order } from '@/lib/record/order';
import type { FiledCaution, FiledLadder, FiledPiece, FiledVisit, PatientFile } from '@/lib/record/patient-file';
import { type NamedMeasure, OCCASIONS, type PatientEvent } from '@/lib/record/patient-record';
import { addDays, type CalendarDay, calendarDay } from '@/lib/units/calendar-day';
import { asNanometres, type LengthUnit, type TypedLength } from '@/lib/units/length';
import { readMass, type TypedMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';
import { BOOKINGS, FACTS, LEAVING_GONE, OBSERVATIONS } from '@/tests/lib/made-up-noted';

/** Words as people write them, and as nobody should: quotes, commas, line ends, formulas, apostrophes, other scripts. */
export const anyWords = fc.oneof(
  fc.string({ unit: 'grapheme', minLength: 1, maxLength: 24 }),
  fc.constantFrom('=1+1', "'=2", '+44 20', '-3', '@home', '\t=x', 'a "b", c\r\nd', ' edges ', '“7¾ in”', '＝SUM(A1)', 'élève 日本'),
);

/** Lengths as they are typed, in a unit: fractions and decimals. */
function typed(unit: LengthUnit, least: number, most: number): fc.Arbitrary<TypedLength> {
  const texts =
    unit === 'in'
      ? fc.tuple(fc.integer({ min: least, max: most }), fc.constantFrom('', ' 1/2', ' 3/4', '¼', '.25', '-1/8'))
      : fc.tuple(fc.integer({ min: least, max: most }), fc.constantFrom('', '.5', ',25', '.0', ' cm', '.10'));
  return texts.map(([whole, part]) => exactly(`${whole}${part}`, unit));
}

function exactly(text: string, unit: LengthUnit): TypedLength {
  const reading = readLength(text, unit);
  if (reading.kind !== 'read') throw new Error(`${text}: ${reading.kind}`);
  return reading.value;
}

const anyMass = fc.constantFrom('41.5', '42 3/4 lb', '36,50', '80 lb 8 oz').map((text): TypedMass => {
  const reading = readMass(text, 'kg');
  if (reading.kind !== 'read') throw new Error(text);
  return reading.value;
});

const moment = fc.constantFrom('2026-03-02T09:30:00.000Z', '2026-10-14T15:00:00.000Z');
const initials = fc.constantFrom('R. Adeyemi', 'K. Doan');

function anyRung(unit: LengthUnit): fc.Arbitrary<Omit<Rung, 'distance'>> {
  const kept = fc.array(fc.record({ kind: fc.constantFrom('slip', 'jump'), by: initials, at: moment }), { minLength: 1, maxLength: 2 });
  return fc
    .record({
      girth: fc.option(typed(unit, 8, 60)),
      again: fc.option(typed(unit, 8, 60), { nil: undefined }),
      note: fc.option(anyWords, { nil: undefined }),
      kept: fc.option(kept, { nil: undefined }),
    })
    .map(({ girth, again, note, kept }) => ({ girth, ...(again && { again }), ...(note && { note }), ...(kept && { kept }) }));
}

function anyLadder(limb: LimbKind, side: 'left' | 'right'): fc.Arbitrary<FiledLadder> {
  return fc.constantFrom<LengthUnit>('in', 'cm').chain((unit) =>
    fc
      .record({
        zero: fc.constantFrom(...LIMBS[limb].landmarks, 'above the scar', '=A1'),
        direction: fc.constantFrom<Ladder['direction']>('up', 'down'),
        intervalText: fc.option(fc.constantFrom('1 1/2', '4', '2,5')),
        rungs: fc.array(anyRung(unit), { maxLength: 12 }),
        landmarks: fc.array(fc.tuple(fc.constantFrom(...LIMBS[limb].landmarks), typed(unit, 2, 40)), { maxLength: 2 }),
        floorToFold: fc.option(typed(unit, 20, 90)),
        zeroChoice: fc.option(
          fc.record({
            choice: fc.constantFrom('as-recorded' as const, 'moved-back' as const),
            shiftMm: fc.constantFrom(20, -14.5, 12.25),
            by: initials,
            at: moment,
          }),
        ),
      })
      .map(({ rungs, landmarks, ...rest }) => ({
        ...rest,
        limb,
        side,
        unit,
        rungs: rungs.map((rung, index) => ({ distance: index === 0 ? ZERO[unit] : exactly(String(index * 2), unit), ...rung })),
        landmarks: landmarks.map(([landmark, distance]) => ({ landmark, distance })),
      })),
  );
}

const ZERO: Readonly<Record<LengthUnit, TypedLength>> = {
  in: { text: '0', unit: 'in', nm: asNanometres(0) },
  cm: { text: '0', unit: 'cm', nm: asNanometres(0) },
};

function anyVisit(day: CalendarDay, id: string): fc.Arbitrary<FiledVisit> {
  const legs = fc.subarray([anyLadder('leg', 'left'), anyLadder('leg', 'right'), anyLadder('arm', 'right')]);
  return fc
    .record({
      time: fc.option(fc.constantFrom('08:05', '14:26')),
      posture: fc.option(anyWords),
      measurer: fc.option(initials),
      height: fc.option(typed('cm', 60, 190)),
      weight: fc.option(anyMass),
      note: fc.option(anyWords),
      readings: fc.option(fc.array(fc.record({ name: anyWords, length: typed('in', 8, 60) }), { minLength: 1, maxLength: 2 })),
      occasion: fc.option(fc.constantFrom(...OCCASIONS)),
      keptBody: fc.option(fc.subarray(['height' as const, 'weight' as const], { minLength: 1 })),
      ladders: legs.chain((some) => fc.tuple(...some)),
    })
    .map(({ keptBody, ...visit }) => {
      const kept = (keptBody ?? [])
        .filter((kind) => visit[kind])
        .map((kind) => ({ kind, by: 'R. Adeyemi', at: '2026-05-08T10:00:00.000Z' }));
      return { ...visit, keptBody: kept.length > 0 ? kept : null, id, day };
    });
}

const GARMENT: GarmentSpec = {
  form: GARMENT_FORMS[3]?.id ?? '',
  use: 'day',
  pressure: { scheme: 'clinic', name: 'II', lowMmHg: 23, highMmHg: 32 },
  options: [{ kind: 'closure', choice: 'zip', place: 'inner side, "long"', width: exactly('1/2', 'in') }],
};

function anyPiece(visit: FiledVisit, label: string): fc.Arbitrary<FiledPiece> {
  const day = visit.day;
  const after = fc.option(fc.integer({ min: 1, max: 300 }).map((days) => addDays(day, days)));
  return fc
    .record({
      reductionPct: fc.constantFrom(10, 12.5, 15),
      convention: fc.constantFrom('C(1-r)' as const, 'C/(1+r)' as const),
      allowance: fc.option(typed('cm', 1, 4)),
      firstWorn: after,
      retired: after,
      retiredReason: fc.option(anyWords),
      retiredAs: fc.option(fc.constantFrom('worn' as const, 'outgrown' as const)),
      expected: after,
      delivered: after,
      firstFit: after,
      byLandmarks: fc.boolean(),
      full: fc.boolean(),
      order: fc.option(fc.constant(1)),
    })
    .map(({ byLandmarks, full, ...rest }) => ({
      ...rest,
      piece: label,
      limb: 'leg' as const,
      side: 'left' as const,
      covers: byLandmarks
        ? { from: 'ankle-crease' as const, to: 'knee' as const }
        : { from: exactly('1', 'in'), to: exactly('12 3/4', 'in') },
      cutFrom: day,
      cutFromVisitId: visit.id,
      lifeDays: 180,
      leadDays: 14,
      garment: full ? GARMENT : null,
      fit: full ? FIT(day) : null,
      wearIn: full ? { firstHours: 2, fullHours: 23, days: 7, callOn: addDays(day, 9), called: null, callNote: null } : null,
      kept: full ? [{ from: day, as: 'rotation' as const }] : null,
      alterations: full ? [{ day, kind: 'let out' as const, width: exactly('1,5', 'cm'), words: 'inner seam' }] : null,
    }));
}

const FIT = (day: CalendarDay): NonNullable<FiledPiece['fit']> => ({
  day,
  zones: [{ zone: 'calf', fit: 'good' }],
  outcome: 'keep',
  reason: null,
  words: 'sat well, "no folds"',
  taught: true,
});

function orderFrom(visit: FiledVisit): Order {
  const ladder = visit.ladders[0];
  return {
    limb: 'leg',
    side: 'left',
    order: 1,
    state: 'ordered',
    cutFromVisitId: visit.id,
    cutFrom: visit.day,
    covers: { from: 'ankle-crease', to: exactly('12 3/4', 'in') },
    garment: GARMENT,
    reductionPct: 15,
    convention: 'C(1-r)',
    quantity: 2,
    allowance: { proposed: { noAnswer: 'No height is on record.' }, decided: exactly('2', 'cm') },
    lifeDays: 180,
    leadDays: 14,
    reasonCode: 'first piece',
    note: '=not a formula',
    questions: [{ key: 'old', message: 'Old ladder?', answer: 'yes', by: 'R. Adeyemi', at: '2026-03-02T09:30:00.000Z' }],
    ordered: visit.day,
    expected: addDays(visit.day, 14),
    sent: ladder
      ? {
          day: visit.day,
          visitRevision: 1,
          measurer: visit.measurer,
          ladder: withoutInterval(ladder),
          readings: [],
          height: visit.height,
          weight: visit.weight,
        }
      : null,
    checked: 'unchecked',
  };
}

function withoutInterval({ intervalText, ...ladder }: FiledLadder): Ladder {
  return ladder;
}

const CAUTION: FiledCaution = {
  card: 'arterial',
  cardVersion: '2',
  answer: 'present',
  day: calendarDay('2026-03-02'),
  words: 'seen by "vascular"',
  wording: 'Is arterial disease known?',
  figures: { abpi: 0.75, abpiDay: calendarDay('2026-02-20'), limits: { abpiLowest: 0.6 } },
};

/** A course around visits: reduction from the first on, its baseline chosen where there is one, then the end. */
function courseOver(taped: readonly FiledVisit[], note: string): readonly Phase[] {
  const endedAs = ENDED_AS[(note.length + taped.length) % ENDED_AS.length] as (typeof ENDED_AS)[number];
  const from = taped[0]?.day ?? calendarDay('2026-01-05');
  const end = addDays(taped.at(-1)?.day ?? from, 1);
  return [
    { kind: 'reduction', from, until: end, baselineDay: taped[0]?.day ?? null, note },
    { kind: 'ended', from: end, until: null, baselineDay: null, endedAs, ...(endedAs !== 'died' && { askOn: addDays(end, 90) }) },
  ];
}

/** A made-up patient with everything that a file can hold, from nothing at all to all of it. */
export const anyFile: fc.Arbitrary<PatientFile> = fc
  .record({
    reference: fc.integer({ min: 1, max: 9999 }).map((number) => `HL-${number}`),
    name: fc.option(anyWords),
    sex: fc.constantFrom('F' as const, 'M' as const, 'X' as const),
    diagnosisGroup: fc.constantFrom('burn scar', 'lymphoedema'),
    affected: fc.subarray([
      { limb: 'leg' as const, side: 'left' as const },
      { limb: 'arm' as const, side: 'right' as const },
    ]),
    language: fc.constantFrom('en', 'es'),
    note: fc.option(anyWords),
    visits: fc.integer({ min: 0, max: 3 }),
    pieces: fc.integer({ min: 0, max: 2 }),
    ordered: fc.boolean(),
    cautious: fc.boolean(),
    event: fc.option(anyWords),
  })
  .chain(({ visits, pieces, ordered, cautious, event, ...details }) =>
    fc
      .tuple(...Array.from({ length: visits }, (_, n) => anyVisit(addDays(calendarDay('2026-01-05'), n * 40), `v${n + 1}`)))
      .chain((taped) => {
        const first = taped[0];
        const events: readonly PatientEvent[] = event && first ? [{ day: first.day, kind: 'operation', words: event }] : [];
        return fc.tuple(...Array.from({ length: first ? pieces : 0 }, (_, n) => anyPiece(first as FiledVisit, String(n + 1)))).map(
          (made): PatientFile => ({
            details: { ...details, born: calendarDay('2015-02-17') },
            visits: taped,
            pieces: made.map((piece) => ({ ...piece, order: ordered ? piece.order : null })),
            orders: ordered && first ? [orderFrom(first)] : [],
            events,
            phases: details.note ? courseOver(taped, details.note) : [],
            cautions: cautious ? [CAUTION] : [],
            writings: taped.map(({ id }) => ({
              visitId: id,
              number: 1,
              author: 'R. Adeyemi',
              at: '2026-03-02T09:30:00.000Z',
              reason: null,
            })),
          }),
        );
      }),
  );

const SIDED = MEASURES.flatMap((measure) =>
  (measure.sides === 'middle' ? (['middle'] as const) : (['left', 'right'] as const)).map((side) => ({ measure, side })),
);

/** Named measures of one visit, each side of each at most once. */
const anyMeasures: fc.Arbitrary<readonly NamedMeasure[]> = fc
  .subarray(SIDED, { minLength: 1, maxLength: 6 })
  .chain((places) => fc.tuple(...places.map(({ measure, side }) => anyMeasureOf(measure, side))));

function anyMeasureOf(measure: (typeof MEASURES)[number], side: NamedMeasure['side']): fc.Arbitrary<NamedMeasure> {
  const kept = fc.array(fc.record({ kind: fc.constantFrom('last-visit', 'sum-check'), by: initials, at: moment }), {
    minLength: 1,
    maxLength: 2,
  });
  return fc
    .record({
      part: fc.constantFrom(measure.part, measure.alsoOf ?? measure.part),
      length: fc.oneof(typed('in', 2, 60), typed('cm', 5, 90)),
      again: fc.option(fc.oneof(typed('in', 2, 60), typed('cm', 5, 90)), { nil: undefined }),
      note: fc.option(
        anyWords.filter((words) => words.trim() !== ''),
        { nil: undefined },
      ),
      kept: fc.option(kept, { nil: undefined }),
    })
    .map(({ part, length, again, note, kept }) => ({
      part,
      side,
      measure: measure.id,
      length,
      ...(again && { again }),
      ...(note && { note }),
      ...(kept && { kept }),
    }));
}

/** The same order as one garment over every ladder of its visit, sent with named measures. */
function orderOfSet(order: Order, visit: FiledVisit | undefined, measures: readonly NamedMeasure[] | undefined): Order {
  if (!order.sent || !visit || !measures) return order;
  const further = visit.ladders.slice(1).map(withoutInterval);
  const proposed = { middleMm: 6.25, highMm: 9.5, places: [{ placeMm: 40, middleMm: 6.25 }] };
  const rooms = further.map(({ limb, side }) => ({ limb, side, proposed }));
  return {
    ...order,
    garment: { ...order.garment, form: 'body-garment-sleeves' },
    allowance: { ...order.allowance, ...(rooms.length > 0 && { further: rooms }) },
    sent: { ...order.sent, ...(further.length > 0 && { further }), measures },
  };
}

const PARTS_OF_SIDES = [
  { part: 'hand', side: 'left' },
  { part: 'foot', side: 'right' },
  { part: 'head', side: 'middle' },
] as const;

/** A made-up patient with named measures at every visit, affected parts, and what else is noted. Beside `anyFile`, from which recorded files were made. */
export const anyMeasuredFile: fc.Arbitrary<PatientFile> = anyFile.chain((file) =>
  fc
    .tuple(fc.subarray([...PARTS_OF_SIDES], { minLength: 1 }), fc.tuple(...file.visits.map(() => anyMeasures)))
    .map(([affectedParts, measures]) => ({
      ...file,
      details: { ...file.details, affectedParts },
      visits: file.visits.map((visit, index) => ({ ...visit, measures: measures[index] ?? [] })),
      orders: file.orders.map((order) => orderOfSet(order, file.visits[0], measures[0])),
      ...(affectedParts.length > 1 && { facts: FACTS, leaving: LEAVING_GONE }),
      ...(file.visits.length > 1 && { bookings: BOOKINGS, observations: OBSERVATIONS }),
    })),
);
