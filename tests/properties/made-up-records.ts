import fc from 'fast-check';
import type { Ladder } from '@/lib/ladder/ladder';
import { LIMBS, type LimbKind } from '@/lib/ladder/limb';
import type { PatientRecord, Piece, Visit } from '@/lib/record/patient-record';
import { addDays, type CalendarDay, calendarDay } from '@/lib/units/calendar-day';
import { asNanometres, type LengthUnit, NANOMETRES_IN, type TypedLength } from '@/lib/units/length';

/** A length to the nanometre. */
export function length(lengthMm: number, unit: LengthUnit): TypedLength {
  const nm = asNanometres(Math.round(lengthMm * 1e6));
  return { text: String(nm / Number(NANOMETRES_IN[unit])), unit, nm };
}

/** Odd but valid ladders: any zero, none to twenty rungs, landmarks or none, either unit, girths from thin to huge. */
export function anyLadder(limb: LimbKind): fc.Arbitrary<Ladder> {
  return fc
    .record({
      side: fc.constantFrom('left', 'right'),
      zero: fc.constantFrom(...LIMBS[limb].landmarks, 'above the scar'),
      direction: fc.constantFrom('up', 'down'),
      unit: fc.constantFrom('in', 'cm'),
      gaps: fc.array(fc.integer({ min: 4, max: 120 }), { maxLength: 20 }),
      girths: fc.array(fc.option(fc.integer({ min: 60, max: 1500 })), { minLength: 20, maxLength: 20 }),
      marked: fc.subarray([...LIMBS[limb].landmarks]),
      apart: fc.integer({ min: 40, max: 400 }),
    })
    .map(({ side, zero, direction, unit, gaps, girths, marked, apart }): Ladder => {
      let place = 0;
      const rungs = gaps.map((gap, index) => {
        const girth = girths[index];
        const rung = { distance: length(place, unit), girth: girth ? length(girth, unit) : null };
        place += gap;
        return rung;
      });
      const landmarks = marked
        .filter((landmark) => landmark !== zero)
        .map((landmark) => {
          const steps = Math.abs(LIMBS[limb].landmarks.indexOf(landmark) - Math.max(LIMBS[limb].landmarks.indexOf(zero as never), 0));
          return { landmark, distance: length(apart * (steps + 1), unit) };
        });
      return { limb, side, zero, direction, unit, rungs, landmarks, floorToFold: null } as Ladder;
    });
}

const clock = fc.constantFrom(null, '08:00', '10:30', '23:59');

function anyVisit(born: CalendarDay, ageDays: number): fc.Arbitrary<Visit> {
  return fc
    .record({
      after: fc.constantFrom(0, 0, 1, 3, 30, 200, 700),
      time: clock,
      posture: fc.constantFrom(null, 'lying', 'standing'),
      measurer: fc.constantFrom(null, 'A', 'B'),
      height: fc.option(fc.integer({ min: 500, max: 2000 })),
      weight: fc.option(fc.integer({ min: 3, max: 200 })),
      legs: fc.array(anyLadder('leg'), { maxLength: 2 }),
      arms: fc.array(anyLadder('arm'), { maxLength: 1 }),
    })
    .map(({ after, height, weight, legs, arms, ...words }) => ({
      ...words,
      day: addDays(born, ageDays + after),
      height: height === null ? null : length(height, 'cm'),
      weight: weight === null ? null : { text: String(weight), unit: 'kg' as const, ng: weight * 1e12 },
      note: null,
      ladders: [...new Map([...legs, ...arms].map((ladder) => [`${ladder.limb} ${ladder.side}`, ladder])).values()],
    }));
}

/** Odd but valid records: ages 0 to 95, any sex, visits of one day, nothing taped, retired pieces and pieces worn from next month on. */
export const anyRecord: fc.Arbitrary<PatientRecord> = fc
  .record({
    sex: fc.constantFrom('F', 'M', 'X'),
    ageDays: fc.integer({ min: 0, max: 95 * 365 }),
    affected: fc.boolean(),
    events: fc.boolean(),
  })
  .chain(({ sex, ageDays, affected, events }) => {
    const born = calendarDay('1930-02-28');
    return fc
      .record({ visits: fc.array(anyVisit(born, ageDays), { maxLength: 7 }), piece: anyPiece })
      .map(({ visits, piece }): PatientRecord => {
        const sorted = [...visits].sort(
          (one, other) => one.day.localeCompare(other.day) || (one.time ?? '').localeCompare(other.time ?? ''),
        );
        const cut = sorted.flatMap((visit) => visit.ladders.map((ladder) => ({ ladder, day: visit.day })))[0];
        return {
          reference: 'odd',
          born,
          sex: sex as PatientRecord['sex'],
          affected: affected ? [{ limb: 'leg', side: 'left' }] : [],
          visits: sorted,
          pieces: cut ? piece(cut.ladder, cut.day) : [],
          ...(events && cut ? { events: [{ day: cut.day, kind: 'operation' as const, words: 'operation' }] } : {}),
        };
      });
  });

const anyPiece = fc
  .record({
    reductionPct: fc.constantFrom(5, 10, 15, 25),
    convention: fc.constantFrom('C(1-r)', 'C/(1+r)'),
    worn: fc.option(fc.integer({ min: 0, max: 400 })),
    retired: fc.option(fc.integer({ min: 0, max: 400 })),
    allowance: fc.boolean(),
    byLandmarks: fc.boolean(),
    lifeDays: fc.constantFrom(1, 90, 400),
  })
  .map(({ worn, retired, allowance, byLandmarks, convention, ...rest }) => (ladder: Ladder, day: CalendarDay): Piece[] => {
    const [from, , to] = LIMBS[ladder.limb].landmarks;
    const covers = byLandmarks ? { from, to } : { from: length(1, ladder.unit), to: length(400, ladder.unit) };
    const piece: Piece = {
      ...rest,
      piece: '1',
      limb: ladder.limb,
      side: ladder.side,
      covers,
      cutFrom: day,
      convention: convention as Piece['convention'],
      allowance: allowance ? length(20, 'cm') : null,
      firstWorn: worn === null ? null : addDays(day, worn),
      leadDays: 14,
      retired: retired === null ? null : addDays(day, (worn ?? 0) + retired),
      firstFit: null,
    };
    return [piece, { ...piece, piece: '2', firstWorn: null, retired: null }];
  });
