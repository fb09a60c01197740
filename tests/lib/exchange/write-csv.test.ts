import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText } from '@/lib/exchange/csv-text';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { writeLaddersCsv } from '@/lib/exchange/write-ladders-csv';
import type { Ladder } from '@/lib/ladder/ladder';
import type { Visit } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { anyRecord } from '@/tests/properties/made-up-records';
import { file, row, THREE } from './files';

/** After every made-up visit. */
const TODAY = calendarDay('2040-01-01');

function recordsOf(text: string) {
  const read = readLaddersCsv(text, TODAY);
  if (read.kind === 'fault') throw new Error(`line ${read.fault.line}, ${read.fault.column}: ${read.fault.reason}`);
  return read.records;
}

/** A ladder whose direction follows from its zero, with girths alone; nothing of one in inches, whose made-up texts are too long to be typed. */
function plainly(ladder: Ladder): Ladder[] {
  const ends = !['knee', 'elbow-crease'].includes(ladder.zero) && ladder.unit === 'cm' && ladder.rungs.some((rung) => rung.girth);
  const direction = ladder.zero.endsWith('fold') ? 'down' : 'up';
  return ends ? [{ ...ladder, direction, landmarks: [], rungs: ladder.rungs.filter((rung) => rung.girth) }] : [];
}

const FULL = file(
  ...THREE,
  row({ distance: '60', landmark: 'gluteal-fold' }),
  row({ distance: '12', note: 'dressing' }),
  row({ distance: '20', girth: '"33,5"', note: '"scar, two\nfingers ""wide"""' }),
  row({
    day: '2026-02-05',
    time: '08:30',
    posture: 'lying',
    measurer: 'R. Adeyemi',
    height: '"5\'4"""',
    weight: '80 lb 8 oz',
    side: 'right',
    affected: 'no',
    zero: 'gluteal-fold',
    unit: 'in',
    distance: '0',
    girth: '20 5/8',
  }),
  row({
    day: '2026-02-05',
    time: '08:30',
    side: 'right',
    affected: 'no',
    zero: 'gluteal-fold',
    unit: 'in',
    distance: '1 1/2',
    girth: '20-1/4',
  }),
  row({
    day: '2026-02-05',
    time: '08:30',
    side: 'right',
    affected: 'no',
    zero: 'gluteal-fold',
    unit: 'in',
    distance: '12 1/4',
    landmark: 'knee',
  }),
);

describe('files that are written', () => {
  it('read back to the same records, to the typed text', () => {
    const records = recordsOf(FULL);
    expect(recordsOf(writeLaddersCsv(records))).toEqual(records);
  });

  it('are the same when written again', () => {
    const records = recordsOf(FULL);
    const written = writeLaddersCsv(records);
    expect(writeLaddersCsv(recordsOf(written))).toBe(written);
  });

  it('give a height or weight its unit where it was typed without', () => {
    const [record] = recordsOf(file(...THREE));
    if (!record) throw new Error('no record');
    const [visit] = record.visits;
    if (!visit) throw new Error('no visit');
    const tall = {
      ...visit,
      height: { text: '54 3/4', unit: 'in' as const, nm: 1_390_650_000 as never },
      weight: { text: '70.5', unit: 'kg' as const, ng: 70.5e12 },
    };
    const back = recordsOf(writeLaddersCsv([{ ...record, visits: [tall] }]))[0]?.visits[0];
    expect([back?.height, back?.weight]).toEqual([
      { text: '54 3/4 in', unit: 'in', nm: 1_390_650_000 },
      { text: '70.5 kg', unit: 'kg', ng: 70.5e12 },
    ]);
  });

  it('hold every centimetre ladder of odd records: read back, the ladders are the same', () => {
    fc.assert(
      fc.property(anyRecord, (record) => {
        const visits = record.visits.map(
          (visit, index): Visit => ({ ...visit, time: `0${index}:00`, ladders: visit.ladders.flatMap(plainly) }),
        );
        const taped = visits.filter((visit) => visit.ladders.length > 0);
        const [back] = recordsOf(writeLaddersCsv([{ ...record, visits: taped }]));
        expect((back?.visits ?? []).map((visit) => visit.ladders)).toEqual(taped.map((visit) => visit.ladders));
      }),
      { seed: 9, numRuns: 150 },
    );
  });

  it('quote what needs it, as RFC 4180 does: csv-parse reads any cells back', () => {
    fc.assert(
      fc.property(fc.array(fc.array(fc.string(), { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 }), (rows) => {
        const even = rows.map((cells) => cells.slice(0, 2));
        expect(parse(csvText(even), { record_delimiter: '\r\n' })).toEqual(even);
      }),
      { seed: 3 },
    );
  });
});

describe('words that a spreadsheet could take for a formula', () => {
  const WORDS = ['=HYPERLINK("http://x")', '+1', '-1', '@SUM(1)', "'=1", "''=1", '\uff1d1', "it's"];

  it.each(WORDS)('%s: leaves defused and comes back as it was', (word) => {
    const [record] = recordsOf(file(...THREE));
    const [visit] = record?.visits ?? [];
    const [ladder] = visit?.ladders ?? [];
    if (!record || !visit || !ladder) throw new Error('no ladder');
    const rungs = ladder.rungs.map((rung) => ({ ...rung, note: word }));
    const noted = { ...record, reference: word, visits: [{ ...visit, measurer: word, ladders: [{ ...ladder, rungs }] }] };
    const text = writeLaddersCsv([noted]);
    // OWASP, CSV injection: no cell of words may begin with one of these.
    const cells = (parse(text, { columns: true }) as Record<string, string>[]).flatMap((row) => [row.patient, row.measurer, row.note]);
    expect(cells.filter((cell) => /^[=+\-@\uff1d]/.test(cell ?? ''))).toEqual([]);
    expect(recordsOf(text)).toEqual([noted]);
  });
});
