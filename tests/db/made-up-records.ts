import type { TypedPiece } from '@/db/patients/pieces';
import type { TypedVisit } from '@/db/patients/visits';
import { proposedOrder } from '@/lib/orders/order-steps';
import type { Order } from '@/lib/record/order';
import type { PatientDetails } from '@/lib/record/patient-details';
import { calendarDay } from '@/lib/units/calendar-day';
import { asNanometres, type LengthUnit, type TypedLength } from '@/lib/units/length';

/** A length whose exact value is written out by hand beside its text: 1 in = 25,400,000 nm, 1 cm = 10,000,000 nm. */
export function length(text: string, unit: LengthUnit, nm: number): TypedLength {
  return { text, unit, nm: asNanometres(nm) };
}

/** A made-up patient. */
export function details(reference: string, name: string | null = 'Mira Oduya'): PatientDetails {
  return {
    reference,
    name,
    born: calendarDay('2016-02-29'),
    sex: 'F',
    diagnosisGroup: 'burn scar',
    affected: [{ limb: 'leg', side: 'right' }],
    affectedParts: [{ part: 'foot', side: 'right' }],
    language: 'en',
    note: null,
  };
}

/** A made-up visit of one day with two short ladders: inches upward with an odd last rung and a gap, centimetres downward. */
export function visitOn(day: string, note: string | null = null): TypedVisit {
  return {
    day: calendarDay(day),
    time: '14:20',
    posture: 'standing',
    measurer: 'R. Adeyemi',
    height: length('54 3/4', 'in', 1_390_650_000),
    weight: { text: '80 lb 8 oz', unit: 'lb', ng: 36_514_185_785_000 },
    note,
    measures: [
      {
        part: 'foot',
        side: 'right',
        measure: 'foot-length',
        length: length('8 1/4', 'in', 209_550_000),
        note: 'standing',
        kept: [{ kind: 'other-measures', by: 'R. Adeyemi', at: '2026-10-14T13:32:00.000Z' }],
      },
      { part: 'head', side: 'middle', measure: 'head-girth', length: length('52,5', 'cm', 525_000_000) },
    ],
    ladders: [
      {
        limb: 'leg',
        side: 'right',
        zero: 'ankle-crease',
        direction: 'up',
        unit: 'in',
        intervalText: '1 1/2',
        rungs: [
          { distance: length('0', 'in', 0), girth: length('7 3/4', 'in', 196_850_000) },
          { distance: length('1 1/2', 'in', 38_100_000), girth: null, note: 'dressing' },
          {
            distance: length('2 1/4', 'in', 57_150_000),
            girth: length('8-1/8', 'in', 206_375_000),
            kept: [{ kind: 'neighbours', by: 'R. Adeyemi', at: '2026-10-14T13:31:00.000Z' }],
          },
        ],
        landmarks: [{ landmark: 'knee', distance: length('11', 'in', 279_400_000) }],
        floorToFold: length('25 1/2', 'in', 647_700_000),
      },
      {
        limb: 'leg',
        side: 'left',
        zero: 'gluteal-fold',
        direction: 'down',
        unit: 'cm',
        rungs: [{ distance: length('4', 'cm', 40_000_000), girth: length('41,3', 'cm', 413_000_000) }],
        landmarks: [],
        floorToFold: null,
      },
    ],
  };
}

/** The same visit with every place taped twice. */
export function tapedTwice(day: string, note: string | null = null): TypedVisit {
  const visit = visitOn(day, note);
  const again = length('41.5', 'cm', 415_000_000);
  const twice = (rungs: TypedVisit['ladders'][number]['rungs']) => rungs.map((rung) => (rung.girth ? { ...rung, again } : rung));
  return { ...visit, ladders: visit.ladders.map((one) => ({ ...one, rungs: twice(one.rungs) })) };
}

/** A made-up piece cut from a visit. */
export function pieceFrom(visitId: string | null, day: string, label = 'right leg 1'): TypedPiece {
  return {
    piece: label,
    limb: 'leg',
    side: 'right',
    covers: { from: 'ankle-crease', to: length('20', 'cm', 200_000_000) },
    cutFromVisitId: visitId,
    cutFrom: calendarDay(day),
    reductionPct: 12.5,
    convention: 'C(1-r)',
    allowance: null,
    firstWorn: null,
    lifeDays: 90,
    leadDays: 14,
    retired: null,
    retiredReason: null,
  };
}

/** A made-up order cut from a visit: two of the piece above, with room to let out. */
export function orderFrom(visitId: string, day: string): Omit<Order, 'order'> {
  const { limb, side, covers, reductionPct, convention, lifeDays, leadDays, cutFrom } = pieceFrom(visitId, day);
  const cut = { limb, side, covers, reductionPct, convention, lifeDays, leadDays, cutFrom };
  const garment = { form: 'thigh-high', use: 'day', pressure: null, options: [] } as const;
  const choice = { ...cut, garment, quantity: 2, reasonCode: 'worn out', note: null, decided: length('2', 'cm', 20_000_000) } as const;
  return proposedOrder(choice, visitId, { middleMm: 9, highMm: 14, places: [] });
}
