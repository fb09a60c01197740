import { describe, expect, it } from 'vitest';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import { clinicDay, type DemoPatient } from '@/app/_commands/demonstration/demo-patient';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { recordMeasureDoubts } from '@/lib/doubts/record-measure-doubts';
import type { Ladder } from '@/lib/ladder/ladder';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { missingFigures } from '@/lib/orders/missing-figures';
import { isNoAnswer } from '@/lib/outcome';
import type { PatientRecord } from '@/lib/record/patient-record';
import { ageInYears } from '@/lib/units/age';
import { addDays, calendarDay, dayNumber, daysBetween } from '@/lib/units/calendar-day';
import { kg, readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';

const TODAY = calendarDay('2026-11-25');
// A leap day, a turn of the year, a Sunday and days of other seasons: the stories must hold on whatever day the demonstration starts.
const DAYS = ['2026-11-25', '2028-02-29', '2027-01-01', '2027-03-14', '2027-07-05', '2029-10-31'].map(calendarDay);

function patient(reference: string, today = TODAY): DemoPatient {
  const found = demoClinic(today).patients.find((one) => one.details.reference === reference);
  if (!found) throw new Error(`no ${reference}`);
  return found;
}
const laddersOf = (one: DemoPatient) => one.visits.flatMap((visit) => visit.ladders.map((ladder) => ({ ...ladder, visit, one })));
const everyLadder = (today: typeof TODAY) => demoClinic(today).patients.flatMap(laddersOf);
const girthsCm = (ladder: Ladder) => ladder.rungs.map((rung) => (rung.girth?.nm ?? 0) / 1e7);
const sumOf = (figures: readonly number[]) => figures.reduce((total, figure) => total + figure, 0);
const ladderOf = (one: DemoPatient, visit: number, side: string): Ladder => {
  const found = one.visits.at(visit)?.ladders.find((ladder) => ladder.side === side);
  if (!found) throw new Error(`${one.details.reference} has no ${side} ladder`);
  return found;
};
/** Share by which the girths of one ladder exceed another's, rung by rung from zero. */
const gain = (later: Ladder, earlier: Ladder, rungs = Math.min(later.rungs.length, earlier.rungs.length) - 1) =>
  sumOf(girthsCm(later).slice(0, rungs)) / sumOf(girthsCm(earlier).slice(0, rungs)) - 1;

describe('the demonstration clinic', () => {
  it('is the same figure for figure on the same day, and moves with the day', () => {
    expect(demoClinic(TODAY)).toEqual(demoClinic(TODAY));
    const later = demoClinic(addDays(TODAY, 7));
    expect(later.patients.map((one) => one.details.reference)).toEqual(demoClinic(TODAY).patients.map((one) => one.details.reference));
    expect(later.patients[0]?.visits[0]?.day).not.toBe(demoClinic(TODAY).patients[0]?.visits[0]?.day);
  });

  it('has twenty-two people with references, names and stories of their own', () => {
    const { patients, clinic } = demoClinic(TODAY);
    expect(clinic.name).toBe('Harbour Lane');
    for (const told of [
      patients.map((one) => one.details.reference),
      patients.map((one) => one.details.name),
      patients.map((one) => one.shows),
    ]) {
      expect(new Set(told).size).toBe(22);
    }
  });

  it.each(DAYS)('on %s keeps every typed text together with the exact value that the readers give', (today) => {
    let texts = 0;
    for (const one of demoClinic(today).patients) {
      for (const visit of one.visits) {
        if (visit.height) expect(readLength(visit.height.text, visit.height.unit)).toEqual({ kind: 'read', value: visit.height });
        if (visit.weight) expect(readMass(visit.weight.text, visit.weight.unit)).toEqual({ kind: 'read', value: visit.weight });
        for (const ladder of visit.ladders) {
          const typed = [
            ...ladder.rungs.flatMap((rung) => [rung.distance, rung.girth]),
            ...ladder.landmarks.map((mark) => mark.distance),
            ladder.floorToFold,
          ];
          for (const length of typed) {
            if (!length) continue;
            texts += 1;
            expect(length.unit).toBe(ladder.unit);
            expect(readLength(length.text, ladder.unit, true)).toEqual({ kind: 'read', value: length });
          }
        }
      }
    }
    expect(texts).toBeGreaterThan(1500);
  });

  it('types the way three people type: 14 3/4, 14-3/4, 14.5 and 14,5', () => {
    const texts = everyLadder(TODAY).flatMap((ladder) => ladder.rungs.map((rung) => rung.girth?.text ?? ''));
    for (const form of [/^\d+ \d\/\d$/, /^\d+-\d\/\d$/, /^\d+\.\d$/, /^\d+,\d$/, /^\d+$/])
      expect(texts.filter((text) => form.test(text)).length).toBeGreaterThan(10);
  });

  it.each(DAYS)('on %s has visits on working days that rise and never lie ahead, and pieces cut from one of them', (today) => {
    for (const one of demoClinic(today).patients) {
      const days = one.visits.map((visit) => visit.day);
      expect([...new Set(days)].sort()).toEqual(days);
      for (const day of days) {
        expect(daysBetween(day, today)).toBeGreaterThanOrEqual(0);
        expect([1, 2, 3, 4, 5]).toContain((dayNumber(day) + 4) % 7);
      }
      for (const piece of one.pieces) {
        expect(days).toContain(piece.cutFrom);
        expect(piece.lifeDays).toBeGreaterThanOrEqual(90);
        expect(piece.lifeDays).toBeLessThanOrEqual(180);
        if (piece.firstWorn) expect(daysBetween(piece.cutFrom, piece.firstWorn)).toBeGreaterThanOrEqual(7);
        if (piece.retired && piece.firstWorn) expect(daysBetween(piece.firstWorn, piece.retired)).toBeGreaterThan(30);
        expect(piece.retired !== null).toBe(piece.retiredReason !== null);
      }
    }
  });

  it('counts a Saturday or Sunday as the Friday before', () => {
    // Calendar: 25 November 2026 is a Wednesday.
    expect([2, 3, 4, 5].map((back) => clinicDay(TODAY, back))).toEqual(['2026-11-23', '2026-11-20', '2026-11-20', '2026-11-20']);
  });
});

describe('the made-up limbs', () => {
  const sound = (today: typeof TODAY) =>
    everyLadder(today).filter((ladder) => !(ladder.one.details.reference === 'HL-0159' && ladder.visit === ladder.one.visits.at(-1)));

  it.each(DAYS)('on %s lie inside what was ever measured and rise no faster than real limbs', (today) => {
    // Smallest and largest girths in ANSUR II, NHANES 2003–2006, Snyder 1977: leg 12.1 to 94.8 cm, arm 9.2 to 62.4 cm.
    // Steepest slope of the same sets and of dense profiles: 2 cm of girth per cm of length.
    for (const ladder of sound(today)) {
      const girths = girthsCm(ladder);
      const [least, most] = ladder.limb === 'leg' ? [12.1, 94.8] : [9.2, 62.4];
      expect(Math.min(...girths)).toBeGreaterThan(least);
      expect(Math.max(...girths)).toBeLessThan(most);
      const places = ladder.rungs.map((rung) => rung.distance.nm / 1e7);
      for (let at = 1; at < girths.length; at++) {
        const run = (places[at] ?? 0) - (places[at - 1] ?? 0);
        expect(run).toBeGreaterThan(0);
        expect(Math.abs((girths[at] ?? 0) - (girths[at - 1] ?? 0)) / Math.max(run, 2)).toBeLessThan(2);
      }
    }
  });

  it.each(DAYS)('on %s are no longer than a limb of that height and agree with the fold above the floor', (today) => {
    // Longest ladders: 0.49 of stature at the leg, 0.36 at the arm (ANSUR II). Foot height: 4 to 9.5 cm (ANSUR II, Snyder 1977).
    for (const { limb, rungs, landmarks, floorToFold, visit, one } of sound(today)) {
      const heightCm = (visit.height?.nm ?? 0) / 1e7;
      expect((rungs.at(-1)?.distance.nm ?? 0) / 1e7).toBeLessThan(heightCm * (limb === 'leg' ? 0.49 : 0.36));
      const fold = landmarks.find((mark) => mark.landmark === 'gluteal-fold');
      if (!floorToFold || !fold || one.details.reference === 'HL-0088') continue;
      const footCm = (floorToFold.nm - fold.distance.nm) / 1e7;
      expect(footCm).toBeGreaterThan(4);
      expect(footCm).toBeLessThan(9.5);
    }
  });
});

describe.each(DAYS)('the stories on %s', (today) => {
  const heightCm = (one: DemoPatient, visit: number) => (one.visits.at(visit)?.height?.nm ?? 0) / 1e7;
  const weightKg = (one: DemoPatient, visit: number) => {
    const weight = one.visits.at(visit)?.weight;
    return weight ? kg(weight) : Number.NaN;
  };

  it('Mira grows in both legs alike, taped upward every inch and a half', () => {
    const mira = patient('HL-0147', today);
    expect(ageInYears(mira.details.born, today)).toBe(10);
    expect(mira.visits).toHaveLength(6);
    const [right, left] = [ladderOf(mira, -1, 'right'), ladderOf(mira, -1, 'left')];
    expect(right.rungs[0]?.distance.nm).toBe(38_100_000);
    expect([right.zero, right.direction]).toEqual(['ankle-crease', 'up']);
    expect(heightCm(mira, -1) - heightCm(mira, 0)).toBeGreaterThan(4);
    expect(Math.abs(gain(right, ladderOf(mira, 0, 'right')) - gain(left, ladderOf(mira, 0, 'left')))).toBeLessThan(0.02);
  });

  it('Lia grows faster than nine centimetres a year and past a piece that is not worn out', () => {
    const lia = patient('HL-0136', today);
    const years = daysBetween(lia.visits[0]?.day ?? today, lia.visits.at(-1)?.day ?? today) / 365.25;
    // Height velocity of girls: 95th percentile 10.4 cm a year at its peak (Tanner).
    expect((heightCm(lia, -1) - heightCm(lia, 0)) / years).toBeGreaterThan(9);
    const worn = lia.pieces.find((piece) => !piece.retired);
    expect(worn?.firstWorn && daysBetween(worn.firstWorn, today)).toBeLessThan(120);
    expect(gain(ladderOf(lia, -1, 'left'), ladderOf(lia, 2, 'left'))).toBeGreaterThan(0.015);
  });

  it('Wim is five per cent heavier than when his piece was cut', () => {
    const wim = patient('HL-0102', today);
    expect(weightKg(wim, -1) / weightKg(wim, 1) - 1).toBeCloseTo(0.055, 2);
    expect(wim.pieces.find((piece) => !piece.retired)?.cutFrom).toBe(wim.visits[1]?.day);
  });

  it('Wim’s tights lie on both legs and have every measure they are made to; Sol’s sleeve with glove has its hand, which comes down', () => {
    const record = (one: DemoPatient) => ({ ...one.details, visits: one.visits, pieces: one.pieces });
    for (const [reference, limb, side] of [
      ['HL-0102', 'leg', 'left'],
      ['HL-0140', 'arm', 'right'],
    ] as const) {
      const one = patient(reference, today);
      const { pieces, trusted } = analysePatient(record(one) as PatientRecord, DEFAULT_POLICY, today);
      const worn = pieces.find(({ inUse }) => inUse)?.piece;
      for (const visit of one.visits) expect(missingFigures(worn?.garment ?? { form: '' }, { limb, side }, visit)).toEqual([]);
      expect([...recordMeasureDoubts(trusted, DEFAULT_POLICY).values()].flat().map(({ message }) => message)).toEqual([]);
      expect(pieces.find(({ inUse }) => inUse)?.ofSet).toHaveLength(reference === 'HL-0102' ? 2 : 0);
    }
    const hand = patient('HL-0140', today).visits.map(
      ({ measures }) => measures?.find((one) => one.measure === 'hand-girth')?.length.nm ?? 0,
    );
    expect((hand.at(-1) ?? 0) - (hand[0] ?? 0)).toBeLessThan(-4e6);
  });

  it('Tess swells in one arm only', () => {
    const tess = patient('HL-0119', today);
    expect(gain(ladderOf(tess, -1, 'left'), ladderOf(tess, 0, 'left'))).toBeGreaterThan(0.04);
    expect(Math.abs(gain(ladderOf(tess, -1, 'right'), ladderOf(tess, 0, 'right')))).toBeLessThan(0.02);
    expect(tess.visits.length).toBeGreaterThanOrEqual(6);
  });

  it('Bram’s landmarks slide together at the last visit, on the right leg alone', () => {
    const bram = patient('HL-0088', today);
    for (const [side, least, most] of [
      ['right', 1.4, 3.2],
      ['left', -1, 1],
    ] as const) {
      const moved = ladderOf(bram, -1, side).landmarks.map(
        (mark, at) => (mark.distance.nm - (ladderOf(bram, -2, side).landmarks[at]?.distance.nm ?? 0)) / 1e7,
      );
      const mean = sumOf(moved) / moved.length;
      expect(mean).toBeGreaterThan(least);
      expect(mean).toBeLessThan(most);
    }
  });

  it('Dara’s last figures read like inches on a centimetre sheet', () => {
    const dara = patient('HL-0159', today);
    expect(ladderOf(dara, -1, 'right').unit).toBe('cm');
    expect(1 / (1 + gain(ladderOf(dara, -1, 'right'), ladderOf(dara, -2, 'right')))).toBeCloseTo(2.54, 1);
  });

  it('Odile’s forearm is a short near-cone without landmarks, larger at the last visit by what a moved zero would also give', () => {
    const odile = patient('HL-0077', today);
    const ladder = ladderOf(odile, -1, 'left');
    expect([ladder.landmarks.length, ladder.rungs.length]).toEqual([0, 5]);
    expect(gain(ladder, ladderOf(odile, -2, 'left'), 5)).toBeGreaterThan(0.03);
    expect(daysBetween(odile.visits.at(-1)?.day ?? today, today)).toBeGreaterThan(56);
  });

  it('Perrin has one visit, a new piece in wear and one not yet worn', () => {
    const perrin = patient('HL-0122', today);
    expect(perrin.visits).toHaveLength(1);
    expect(perrin.pieces.map((piece) => piece.firstWorn !== null)).toEqual([true, false]);
    expect(perrin.pieces[0]?.firstFit).toBeNull();
  });

  it('Rui still wears a piece past its life and another that ends within the month', () => {
    const ends = patient('HL-0064', today)
      .pieces.filter((piece) => !piece.retired && piece.firstWorn)
      .map((piece) => daysBetween(today, addDays(piece.firstWorn ?? today, piece.lifeDays)));
    expect(ends[0]).toBeLessThan(0);
    expect(ends[1]).toBeGreaterThan(0);
    expect(ends[1]).toBeLessThanOrEqual(31);
  });

  it('Sol’s swelling goes down', () => {
    const sol = patient('HL-0140', today);
    expect(gain(ladderOf(sol, -1, 'right'), ladderOf(sol, 0, 'right'))).toBeLessThan(-0.06);
  });

  it('Noor is taped down from the gluteal fold', () => {
    const ladder = ladderOf(patient('HL-0150', today), -1, 'left');
    expect([ladder.zero, ladder.direction]).toEqual(['gluteal-fold', 'down']);
    expect(girthsCm(ladder)[0]).toBeGreaterThan(girthsCm(ladder)[8] ?? 0);
  });

  it('Ana’s left calf gains more than three centimetres within a week, the right one nothing', () => {
    const ana = patient('HL-0031', today);
    expect(daysBetween(ana.visits.at(-2)?.day ?? today, ana.visits.at(-1)?.day ?? today)).toBeLessThanOrEqual(8);
    const calf = (visit: number, side: string) => Math.max(...girthsCm(ladderOf(ana, visit, side)));
    expect(calf(-1, 'left') - calf(-2, 'left')).toBeGreaterThan(3);
    expect(Math.abs(calf(-1, 'right') - calf(-2, 'right'))).toBeLessThan(1);
  });

  it('Elin’s left leg is larger below the knee and not above it, and the engine says so', () => {
    const { visits, details } = patient('HL-0155', today);
    const record = { ...details, visits, pieces: [], events: [], cautions: [] };
    const left = analysePatient(record, DEFAULT_POLICY, today).limbs.find(({ series }) => series.side === 'left');
    const newest = left?.visits.at(-1)?.sinceBaseline;
    if (!newest || isNoAnswer(newest)) throw new Error('no verdict');
    expect([newest.verdict, newest.found?.part, newest.found?.at, (newest.found?.ratio ?? 0) > 1.03]).toEqual([
      'more-than-expected',
      'far',
      'knee',
      true,
    ]);
  });

  it('Joss has no visit yet', () => {
    expect(patient('HL-0168', today).visits).toEqual([]);
  });
});
