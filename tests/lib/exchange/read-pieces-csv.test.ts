import { describe, expect, it } from 'vitest';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { readPiecesCsv } from '@/lib/exchange/read-pieces-csv';
import { calendarDay } from '@/lib/units/calendar-day';
import { file, pieces, THREE } from './files';

const TODAY = calendarDay('2026-11-25');

const ladders = readLaddersCsv(file(...THREE), TODAY);
const records = ladders.kind === 'read' ? ladders.records : [];
const read = (text: string) => readPiecesCsv(text, records);

describe('a pieces file', () => {
  it('is read with its cover, convention and allowance as typed', () => {
    const one = read(
      pieces({ covers: '4 to knee', convention: 'C/(1+r)', reduction: '12.5', allowance: '3/4 in', first_worn: '', retired: '2026-03-01' }),
    );
    if (one.kind === 'fault') throw new Error(one.fault.reason);
    expect(one.records[0]?.pieces).toEqual([
      {
        piece: '1',
        limb: 'leg',
        side: 'left',
        covers: { from: { text: '4', unit: 'cm', nm: 40_000_000 }, to: 'knee' },
        cutFrom: '2026-01-05',
        reductionPct: 12.5,
        convention: 'C/(1+r)',
        allowance: { text: '3/4 in', unit: 'in', nm: 19_050_000 },
        firstWorn: null,
        lifeDays: 90,
        leadDays: 14,
        retired: '2026-03-01',
      },
    ]);
  });

  it.each(['0', '0.0', '0 cm', '0 in'])('takes an allowance of %s for none', (allowance) => {
    const one = read(pieces({ allowance }));
    expect(one.kind === 'read' && one.records[0]?.pieces[0]?.allowance).toBeNull();
  });

  it.each([
    ['an unknown patient', { patient: 'R-9' }, 'patient', 'No ladder of R-9'],
    ['a day without a ladder', { cut_from: '2026-01-06' }, 'cut_from', 'No ladder of the left leg on 2026-01-06'],
    ['a limb that was not measured that day', { side: 'right' }, 'cut_from', 'right leg'],
    ['an empty name', { piece: '' }, 'piece', 'empty'],
    ['a cover of one end', { covers: 'knee' }, 'covers', 'two ends'],
    ['a cover by a landmark of another limb', { covers: 'wrist-crease to knee' }, 'covers', 'not a landmark of the leg'],
    ['a cover that is no figure', { covers: '4.x to knee' }, 'covers', 'letter'],
    ['a reduction of nought', { reduction: '0' }, 'reduction', 'not one that is cut'],
    ['a reduction as a share of a hundred and fifty', { reduction: '150' }, 'reduction', 'not one that is cut'],
    ['a convention in other words', { convention: 'C(1+r)' }, 'convention', 'C(1-r), C/(1+r)'],
    ['an allowance without its unit', { allowance: '2' }, 'allowance', 'has no unit'],
    ['a first wear before the cut', { first_worn: '2026-01-04' }, 'first_worn', 'before it was made'],
    ['a retirement before wear', { retired: '2026-01-10' }, 'retired', 'Retired before'],
    ['a life that is no whole number', { life_days: '90.5' }, 'life_days', 'whole number'],
    ['a lead time below nought', { lead_days: '-1' }, 'lead_days', 'whole number'],
  ])('%s is refused with its line and column', (_what, cells, column, reason) => {
    const one = read(pieces({ piece: '0' }, cells));
    expect(one.kind === 'fault' && [one.fault.line, one.fault.column]).toEqual([3, column]);
    expect(one.kind === 'fault' && one.fault.reason).toContain(reason);
  });

  it('refuses a piece named twice for one patient', () => {
    const one = read(pieces({}, {}));
    expect(one.kind === 'fault' && [one.fault.line, one.fault.column]).toEqual([3, 'piece']);
  });
});
