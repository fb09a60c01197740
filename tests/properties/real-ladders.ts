import { readFileSync } from 'node:fs';
import path from 'node:path';
import { sheetDoubts } from '@/lib/doubts/sheet-doubts';
import type { Doubt } from '@/lib/ladder/doubt';
import type { Ladder } from '@/lib/ladder/ladder';
import { LIMBS, type LimbKind, type Side } from '@/lib/ladder/limb';
import { calendarDay } from '@/lib/units/calendar-day';
import type { TypedLength } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';

const FOLDER = path.resolve(import.meta.dirname, '../reference/body');

/** One girth of a real person: which column it comes from, and its place above the distal landmark, cm. */
export type RealRung = { readonly column: string; readonly placeCm: number; readonly girth: string };

/** A real person's limb as a ladder of few, wide rungs. */
export type RealLimb = {
  readonly row: string;
  readonly limb: LimbKind;
  readonly side: Side;
  readonly heightCm: number | null;
  readonly middleCm: number;
  readonly rungs: readonly RealRung[];
};

/** The rows of a reference file as records of text. */
export function rowsOf(file: string): Record<string, string>[] {
  const [head = '', ...lines] = readFileSync(path.join(FOLDER, file), 'utf8').trim().split('\n');
  const names = head.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((text, index) => [names[index] ?? '', text])));
}

/**
 * Legs and arms of 120 women. Source: Slack 1997 in Johnson 2021, J Stat Data Sci Educ 29(3). Only girths were taped, so places are
 * assumed, as shares of height above the malleolus (ANSUR II 2012): ankle 0.03, calf 0.165, knee 0.2365, mid-thigh 0.335, proximal
 * thigh 0.42; distal thigh 5 cm above the knee; arm: forearm 0.105, elbow 0.145, biceps 0.215 above the wrist (from memory).
 */
export function slackLimbs(): RealLimb[] {
  return rowsOf('slack1997_women_ladders.csv').flatMap((row) => {
    const heightCm = Number(row.height_cm);
    const rung = (column: string, placeCm: number): RealRung => ({ column, placeCm, girth: row[column] ?? '' });
    const leg = [
      rung('ankle_min', 0.03 * heightCm),
      rung('calf_max', 0.165 * heightCm),
      rung('knee_mid_patella', 0.2365 * heightCm),
      rung('distal_thigh', 0.2365 * heightCm + 5),
      rung('mid_thigh', 0.335 * heightCm),
      rung('proximal_thigh', 0.42 * heightCm),
    ];
    const arm = [
      rung('wrist', 0.1),
      rung('forearm_max', 0.105 * heightCm),
      rung('elbow_min', 0.145 * heightCm),
      rung('biceps_extended', 0.215 * heightCm),
    ];
    const one = { row: row.row ?? '', side: 'right' as const, heightCm };
    return [
      { ...one, limb: 'leg', middleCm: 0.2365 * heightCm, rungs: leg },
      { ...one, limb: 'arm', middleCm: 0.145 * heightCm, rungs: arm },
    ];
  });
}

/** Both arms and legs of three people at five measured levels. Source: yeadon sample files (BSD). Zero is the ankle or wrist joint centre. */
export function yeadonLimbs(): RealLimb[] {
  const limbs = new Map<string, Record<string, string>[]>();
  for (const row of rowsOf('yeadon_sample_ladders.csv')) {
    const key = `${row.person} ${row.limb} ${row.side}`;
    limbs.set(key, [...(limbs.get(key) ?? []), row]);
  }
  return [...limbs].map(([key, rows]) => {
    const limb: LimbKind = key.includes(' arm ') ? 'arm' : 'leg';
    const far = Math.max(...rows.map((row) => Number(row.distance_from_origin_cm)));
    const place = (row: Record<string, string>) => Math.round((far - Number(row.distance_from_origin_cm)) * 100) / 100;
    const middle = rows.find((row) => row.level === (limb === 'leg' ? 'knee_joint_centre' : 'elbow_joint_centre')) ?? {};
    const rungs = rows.map((row) => ({ column: row.level ?? '', placeCm: place(row), girth: row.circumference_cm ?? '' })).reverse();
    return {
      row: key,
      limb,
      side: key.endsWith('L') ? 'left' : 'right',
      heightCm: null,
      middleCm: place(middle),
      rungs: rungs.filter((one) => one.placeCm > 0),
    };
  });
}

/** Legs of every tenth soldier of ANSUR II 2012, with the measured heights of malleolus, knee and crotch. Calf at 0.69 of the way to the knee. */
export function ansurLegs(): RealLimb[] {
  return rowsOf('ansur2_2012_limbs_every_tenth.csv').map((row) => {
    const cm = (name: string) => Number(row[name]) / 10;
    const knee = cm('kneeheightmidpatella') - cm('lateralmalleolusheight');
    const crotch = cm('crotchheight') - cm('lateralmalleolusheight');
    const rungs = [
      { column: 'ankle', placeCm: 0.03 * cm('stature'), girth: String(cm('anklecircumference')) },
      { column: 'calf', placeCm: 0.69 * knee, girth: String(cm('calfcircumference')) },
      { column: 'lower thigh', placeCm: knee + 4, girth: String(cm('lowerthighcircumference')) },
      { column: 'thigh', placeCm: crotch - 2, girth: String(cm('thighcircumference')) },
    ];
    return { row: `${row.sex} ${row.row}`, limb: 'leg', side: 'right', heightCm: cm('stature'), middleCm: knee, rungs };
  });
}

/** The questions a first visit of this limb would raise, with the columns they are about. */
export function questionsAbout(limb: RealLimb): { readonly doubt: Doubt; readonly column: string }[] {
  const [distal, middle] = LIMBS[limb.limb].landmarks;
  const rungs = limb.rungs.map((rung) => ({ distance: centimetres(rung.placeCm.toFixed(1)), girth: centimetres(rung.girth) }));
  const landmarks = [{ landmark: middle, distance: centimetres(limb.middleCm.toFixed(1)) }];
  const ladder: Ladder = {
    limb: limb.limb,
    side: limb.side,
    zero: distal,
    direction: 'up',
    unit: 'cm',
    rungs,
    landmarks,
    floorToFold: null,
  };
  const day = calendarDay('2026-01-05');
  const heightMm = limb.heightCm === null ? undefined : { value: limb.heightCm * 10, day, daysAway: 0 };
  const today = { day: 0, body: { heightMm, weightKg: undefined }, tape: { readingMm: 3, placementMm: 5 } };
  const rowsMm = rungs.map((rung) => rung.distance.nm / 1e6);
  return sheetDoubts([{ ladder, rowsMm, affected: false, last: undefined }], today).map(({ doubt }) => ({
    doubt,
    column: limb.rungs[rowsMm.indexOf(doubt.distanceMm ?? -1)]?.column ?? 'whole',
  }));
}

function centimetres(text: string): TypedLength {
  const reading = readLength(text, 'cm');
  if (reading.kind !== 'read') throw new Error(`${text}: ${reading.reason}`);
  return reading.value;
}
