import { describe, expect, it } from 'vitest';
import { csvRows } from '@/lib/exchange/csv-table';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { PHASE_COLUMNS, phaseRows, withPhases } from '@/lib/exchange/read-phases-csv';
import { calendarDay } from '@/lib/units/calendar-day';
import { ARM, armRows, phasesFile } from './course-files';
import { file } from './files';

const DAYS = ['2026-01-05', '2026-02-05', '2026-03-05'];
const ladders = readLaddersCsv(file(...DAYS.flatMap((day) => armRows(day, ARM.a1, ARM.u1))), calendarDay('2026-11-25'));
const [record] = ladders.kind === 'read' ? ladders.records : [];

function read(...rows: readonly string[]) {
  if (!record) throw new Error('no record');
  return withPhases(record, csvRows(phasesFile(...rows), PHASE_COLUMNS));
}

describe('a phases file', () => {
  it('is read in order of days, its baseline kept; two phases may meet in one day, an open one ends with the next', () => {
    const one = read('R-1,garments,2026-02-05,2026-06-01,2026-03-05', 'R-1,reduction,2026-01-01,2026-02-05,', 'R-1,ended,2026-07-01,,');
    expect(one.kind === 'read' && one.record.phases).toEqual([
      { kind: 'reduction', from: '2026-01-01', until: '2026-02-05', baselineDay: null },
      { kind: 'garments', from: '2026-02-05', until: '2026-06-01', baselineDay: '2026-03-05' },
      { kind: 'ended', from: '2026-07-01', until: null, baselineDay: null },
    ]);
    expect(read('R-1,reduction,2026-01-01,,', 'R-1,garments,2026-02-05,,').kind).toBe('read');
  });

  it('of a patient without a row leaves the record as it was', () => {
    const one = read();
    expect(one.kind === 'read' && one.record).toBe(record);
  });

  // Hand-made: one fault a case, at the line (the header is 1), the column and in the words that a reader needs.
  it.each([
    ['an unknown kind', ['R-1,getting ready,2026-01-01,,'], 2, 'kind', 'getting-ready, reduction'],
    ['a day that is none', ['R-1,reduction,2026-02-30,,'], 2, 'from', 'not in the calendar'],
    ['no first day', ['R-1,reduction,,,'], 2, 'from', 'empty'],
    ['an end before the beginning', ['R-1,reduction,2026-02-02,2026-02-01,'], 2, 'until', 'before it begins'],
    ['a beginning before birth', ['R-1,reduction,1980-02-29,,'], 2, 'from', 'before birth'],
    [
      'two that overlap',
      ['R-1,reduction,2026-01-01,2026-02-10,', 'R-1,garments,2026-02-09,,'],
      3,
      'from',
      'Two phases overlap: reduction from 1 Jan 2026 to 10 Feb 2026',
    ],
    [
      'two that overlap, the earlier one written last',
      ['R-1,garments,2026-02-09,,', 'R-1,reduction,2026-01-01,2026-02-10,'],
      3,
      'from',
      'overlap',
    ],
    ['two that begin on one day', ['R-1,reduction,2026-01-01,,', 'R-1,garments,2026-01-01,,'], 3, 'from', 'overlap'],
    ['one inside another', ['R-1,garments,2026-01-01,2026-12-31,', 'R-1,on-hold,2026-03-01,2026-03-02,'], 3, 'from', 'overlap'],
    ['the same one twice', ['R-1,reduction,2026-01-01,,', 'R-1,reduction,2026-01-01,,'], 3, 'from', 'stands twice'],
    [
      'two baselines in two rows',
      ['R-1,reduction,2026-01-01,,2026-01-05', 'R-1,reduction,2026-01-01,,2026-02-05'],
      3,
      'baseline_day',
      'one baseline',
    ],
    ['two baselines in one cell', ['R-1,reduction,2026-01-01,,2026-01-05 2026-02-05'], 2, 'baseline_day', 'one baseline; 2 days'],
    ['a baseline before the phase', ['R-1,reduction,2026-01-06,,2026-01-05'], 2, 'baseline_day', 'outside the phase'],
    ['a baseline after the phase', ['R-1,reduction,2026-01-01,2026-02-01,2026-02-05'], 2, 'baseline_day', 'outside the phase'],
    [
      'a baseline on the day of the next phase',
      ['R-1,reduction,2026-01-01,2026-02-05,2026-02-05', 'R-1,garments,2026-02-05,,'],
      2,
      'baseline_day',
      'next phase, garments',
    ],
    [
      'a baseline without a visit',
      ['R-1,reduction,2026-01-01,,2026-01-06'],
      2,
      'baseline_day',
      'Nothing was measured on the baseline 6 Jan',
    ],
    [
      'a visit after the course ended',
      ['R-1,ended,2026-02-05,,'],
      2,
      'from',
      'Measured on 5 Mar 2026, after the course ended on 5 Feb 2026',
    ],
    [
      'a visit after it ended, before the next phase',
      ['R-1,ended,2026-02-01,,', 'R-1,garments,2026-02-06,,'],
      2,
      'from',
      'Measured on 5 Feb',
    ],
  ])('%s is refused with its line, column and reason', (_what, rows, line, column, reason) => {
    const one = read(...rows);
    expect(one.kind === 'fault' && [one.fault.line, one.fault.column]).toEqual([line, column]);
    expect(one.kind === 'fault' && one.fault.reason).toContain(reason);
  });

  it('may say how a course ended, when to ask again and why; a death has no end, and no phase after it', () => {
    if (!record) throw new Error('no record');
    const more = (...rows: readonly string[]) =>
      withPhases(record, phaseRows([[...PHASE_COLUMNS, 'ended_as', 'ask_on', 'note'].join(','), ...rows].join('\n')));
    expect(more('R-1,on-hold,2026-04-01,,,,2026-05-01,"graft, left"')).toMatchObject({
      record: { phases: [{ kind: 'on-hold', askOn: '2026-05-01', note: 'graft, left' }] },
    });
    expect(more('R-1,ended,2026-04-01,2026-05-01,,died,,')).toMatchObject({
      fault: { line: 2, column: 'until', reason: 'A death has no end.' },
    });
    expect(more('R-1,ended,2026-04-01,,,died,,', 'R-1,garments,2026-05-01,,,,,')).toMatchObject({ fault: { line: 3, column: 'from' } });
    expect(more('R-1,garments,2026-04-01,,,,2026-05-01,')).toMatchObject({ fault: { line: 2, column: 'ask_on' } });
  });

  it('stays quick over very many rows: 9,000 phases of one person, the last two overlapping', () => {
    const day = (at: number) => calendarDay(new Date(Date.UTC(2000, 0, 1 + at)).toISOString().slice(0, 10));
    const rows = Array.from({ length: 9_000 }, (_, at) => `R-1,on-hold,${day(at)},${at === 8_998 ? day(at + 2) : day(at)},`);
    const began = performance.now();
    const one = read(...rows);
    expect(one.kind === 'fault' && [one.fault.line, one.fault.column]).toEqual([9_001, 'from']);
    expect(performance.now() - began).toBeLessThan(2_000);
  });
});
