import type Sqlite from 'better-sqlite3';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import type { Ladder, LandmarkReading, Rung } from '@/lib/ladder/ladder';
import type { LimbKind, Side } from '@/lib/ladder/limb';
import type { PatientRecord, Piece, Visit } from '@/lib/record/patient-record';
import { dayFromNumber } from '@/lib/units/calendar-day';
import type { LengthUnit } from '@/lib/units/length';
import { person, START } from '@/tests/cohort/person';
import { type Random, seeded } from '@/tests/cohort/random';
import { syntheticLimbs } from '@/tests/cohort/synthetic-limbs';
import { ordinaryVisit, tapedPerson } from '@/tests/cohort/taped-person';
import type { LimbShape } from '../cohort/dense-limb';

/** Days from one made-up visit to the next. */
const APART_DAYS = 60;
const RUNGS = 20;

/**
 * A SQLite file in memory's stead with made-up patients as `db/` keeps them: a row a visit, a row a ladder, rungs and landmarks as JSON.
 *
 * Half the patients are children. Every ladder has twenty rungs, both legs are taped, and each patient has a piece in use.
 */
export function madeUpRows(file: string, patients: number, visits: number): Sqlite.Database {
  const database = new BetterSqlite(file);
  database.pragma('journal_mode = WAL');
  database.exec(`
    create table patient (id integer primary key, head text not null);
    create table visit (id integer primary key, patient_id integer not null, day text not null, time text, posture text, measurer text, height text, weight text);
    create table ladder (id integer primary key, visit_id integer not null, limb text not null, side text not null, zero text not null,
      direction text not null, unit text not null, rungs text not null, landmarks text not null);
    create index visit_patient on visit (patient_id, day);
    create index ladder_visit on ladder (visit_id);`);
  const insert = {
    patient: database.prepare('insert into patient values (?, ?)'),
    visit: database.prepare('insert into visit values (?, ?, ?, ?, ?, ?, ?, ?)'),
    ladder: database.prepare('insert into ladder values (null, ?, ?, ?, ?, ?, ?, ?, ?)'),
  };
  const shapes = syntheticLimbs('leg');
  const random = seeded(7);
  database.transaction(() => {
    for (let id = 1; id <= patients; id++) {
      const { visits: taped, ...head } = madeUpRecord(id % 2 === 0 ? 'child' : 'still', random.pick(shapes), visits, random);
      const piece = pieceOf(START + (visits - 2) * APART_DAYS);
      insert.patient.run(id, JSON.stringify({ ...head, reference: `bench ${id}`, pieces: [piece] }));
      for (const visit of taped) {
        const { lastInsertRowid } = insert.visit.run(
          null,
          id,
          visit.day,
          visit.time,
          visit.posture,
          visit.measurer,
          JSON.stringify(visit.height),
          JSON.stringify(visit.weight),
        );
        for (const ladder of visit.ladders) {
          const rungs = JSON.stringify(ladder.rungs.slice(0, RUNGS));
          insert.ladder.run(
            lastInsertRowid,
            ladder.limb,
            ladder.side,
            ladder.zero,
            ladder.direction,
            ladder.unit,
            rungs,
            JSON.stringify(ladder.landmarks),
          );
        }
      }
    }
  })();
  return database;
}

/** A made-up person's record: this many visits, both legs taped at twenty places each. */
export function madeUpRecord(kind: 'child' | 'still', shape: LimbShape, visits: number, random: Random): PatientRecord {
  const someone = person(kind, shape, random);
  const lengthMm = someone.shape.proximalMm * someone.stretchOn(START);
  const setUp = {
    unit: 'cm',
    intervalMm: Math.floor(lengthMm / RUNGS),
    direction: 'up',
    landmarks: 'all',
    sides: ['left', 'right'],
  } as const;
  const days = Array.from({ length: visits }, (_, visit) => ordinaryVisit(visit * APART_DAYS));
  return tapedPerson(someone, days, setUp, random).record;
}

/** A piece in use, cut from a ladder of that day. */
export function pieceOf(cutDay: number): Piece {
  return {
    piece: '1',
    limb: 'leg',
    side: 'left',
    covers: { from: 'ankle-crease', to: 'knee' },
    cutFrom: dayFromNumber(cutDay),
    reductionPct: 15,
    convention: 'C(1-r)',
    allowance: null,
    firstWorn: dayFromNumber(cutDay + 14),
    lifeDays: 90,
    leadDays: 14,
    retired: null,
  };
}

type VisitRow = { id: number; day: string; time: string; posture: string; measurer: string; height: string; weight: string };
type LadderRow = {
  visit_id: number;
  limb: string;
  side: string;
  zero: string;
  direction: string;
  unit: string;
  rungs: string;
  landmarks: string;
};

/** Reads patients one after another, parsed and put together, holding one at a time. */
export function recordReader(database: Sqlite.Database): (id: number) => PatientRecord {
  const heads = database.prepare('select head from patient where id = ?').pluck();
  const visitsOf = database.prepare('select id, day, time, posture, measurer, height, weight from visit where patient_id = ? order by day');
  const laddersOf = database.prepare(
    'select visit_id, limb, side, zero, direction, unit, rungs, landmarks from ladder join visit on visit.id = visit_id where patient_id = ? order by ladder.id',
  );
  return (id) => {
    const head = JSON.parse(heads.get(id) as string) as Omit<PatientRecord, 'visits'>;
    const visits = new Map<number, Visit & { ladders: Ladder[] }>();
    for (const row of visitsOf.all(id) as VisitRow[]) {
      const { id: visitId, day, height, weight, ...words } = row;
      visits.set(visitId, {
        ...words,
        day: day as Visit['day'],
        height: JSON.parse(height),
        weight: JSON.parse(weight),
        note: null,
        ladders: [],
      });
    }
    for (const row of laddersOf.all(id) as LadderRow[]) visits.get(row.visit_id)?.ladders.push(ladderFrom(row));
    return { ...head, visits: [...visits.values()] };
  };
}

function ladderFrom(row: LadderRow): Ladder {
  return {
    limb: row.limb as LimbKind,
    side: row.side as Side,
    zero: row.zero,
    direction: row.direction as 'up' | 'down',
    unit: row.unit as LengthUnit,
    rungs: JSON.parse(row.rungs) as Rung[],
    landmarks: JSON.parse(row.landmarks) as LandmarkReading[],
    floorToFold: null,
  };
}
