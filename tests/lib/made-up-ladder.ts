import type { Ladder } from '@/lib/ladder/ladder';
import type { LandmarkId, LimbKind, Side } from '@/lib/ladder/limb';
import type { PatientRecord, Visit } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { asNanometres, type LengthUnit, type TypedLength } from '@/lib/units/length';
import { readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';

/** A length in cm as typed on a sheet; exact. */
export function cm(value: number): TypedLength {
  return { text: String(value), unit: 'cm', nm: asNanometres(Math.round(value * 1e7)) };
}

type Parts = {
  readonly girths: readonly (readonly [placeCm: number, girthCm: number])[];
  readonly limb?: LimbKind;
  readonly side?: Side;
  readonly zero?: string;
  readonly direction?: 'up' | 'down';
  readonly landmarks?: Partial<Record<LandmarkId, number>>;
  readonly unit?: LengthUnit;
};

/** A ladder in centimetres from its rungs and landmarks; a left leg from the ankle crease up unless it says otherwise. */
export function ladderOf({
  girths,
  limb = 'leg',
  side = 'left',
  zero = 'ankle-crease',
  direction = 'up',
  landmarks = {},
  unit = 'cm',
}: Parts): Ladder {
  return {
    limb,
    side,
    zero,
    direction,
    unit,
    rungs: girths.map(([place, girth]) => ({ distance: cm(place), girth: cm(girth) })),
    landmarks: Object.entries(landmarks).map(([landmark, place]) => ({ landmark: landmark as LandmarkId, distance: cm(place) })),
    floorToFold: null,
  };
}

/** A visit on a day with these ladders; taped by RA, lying, at ten, unless it says otherwise. */
export function visitOf(
  day: string,
  ladders: readonly Ladder[],
  rest: { height?: string; weight?: string } & Partial<Omit<Visit, 'day' | 'ladders' | 'height' | 'weight'>> = {},
): Visit {
  const { height, weight, ...others } = rest;
  const tall = height === undefined ? null : readLength(height, 'cm');
  const heavy = weight === undefined ? null : readMass(weight, 'kg');
  return {
    day: calendarDay(day),
    time: '10:00',
    posture: 'lying',
    measurer: 'RA',
    height: tall?.kind === 'read' ? tall.value : null,
    weight: heavy?.kind === 'read' ? heavy.value : null,
    note: null,
    ladders,
    ...others,
  };
}

/** A record of these visits; an adult woman with an affected left leg unless it says otherwise. */
export function recordOf(visits: readonly Visit[], rest: Partial<PatientRecord> = {}): PatientRecord {
  return {
    reference: 'T-1',
    born: calendarDay('1980-03-01'),
    sex: 'F',
    affected: [{ limb: 'leg', side: 'left' }],
    visits,
    pieces: [],
    ...rest,
  };
}
