import { describe, expect, it } from 'vitest';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { cutPasted } from '@/lib/visit-form/pasted-columns';
import { guessColumns, planPaste, withPasted } from '@/lib/visit-form/place-pasted';

const inches = firstSheet('leg', 'in');
const FIRST_ROW = '38100000';
const FROM_FIRST = { row: FIRST_ROW, again: false };

describe('a pasted block', () => {
  it.each([
    ['12.5\n13.1', [['12.5'], ['13.1']]],
    ['12,5\n13,1', [['12,5'], ['13,1']]],
    [
      '1.5,7.75\n3,8.25',
      [
        ['1.5', '7.75'],
        ['3', '8.25'],
      ],
    ],
    [
      '1 1/2, 7 3/4\n3, 8 1/4',
      [
        ['1 1/2', '7 3/4'],
        ['3', '8 1/4'],
      ],
    ],
    [
      '4\t20,1\r\n8\t21,5\r\n',
      [
        ['4', '20,1'],
        ['8', '21,5'],
      ],
    ],
    [
      '4;"20,1"\n8;"21,5"',
      [
        ['4', '20,1'],
        ['8', '21,5'],
      ],
    ],
    ['"a ""b"" c"\t8', [['a "b" c', '8']]],
  ])('%j is cut into cells', (text, rows) => {
    expect(cutPasted(text).rows).toEqual(rows);
  });

  it('has its first row for a header when that row has no figure', () => {
    expect(cutPasted('place\tgirth\n3\t8').header).toEqual(['place', 'girth']);
    expect(cutPasted('3\t8\n4 1/2\t9').header).toBeNull();
  });

  it('takes a comma as the reader says, where that is said', () => {
    expect(cutPasted('12,5', 'column').rows).toEqual([['12', '5']]);
  });
});

describe('a pasted block on a sheet', () => {
  it('one column goes to the side being taped, from the row it starts at', () => {
    const block = cutPasted('8 1/8\n8 3/8');
    const plan = planPaste(block, guessColumns(block, inches, 'left'), inches, FROM_FIRST);
    expect(plan).toMatchObject({
      refused: null,
      figures: [
        { side: 'left', row: FIRST_ROW },
        { side: 'left', row: '76200000' },
      ],
    });
    expect(withPasted(inches, plan).cells['left/76200000']?.text).toBe('8 3/8');
  });

  it('says what stands where it goes, and replaces that alone: not the second measuring, nor a note', () => {
    const cell = { text: '8', again: '8 1/4', note: 'scar', kept: [{ kind: 'last-visit', by: 'RA', at: '2026-10-14T13:31:00.000Z' }] };
    const filled = { ...inches, cells: { [`right/${FIRST_ROW}`]: cell } };
    const plan = planPaste(cutPasted('8 1/8\n8 3/8'), ['right'], filled, FROM_FIRST);
    expect(plan.figures.map(({ stands }) => stands)).toEqual(['8', '']);
    expect(withPasted(filled, plan).cells[`right/${FIRST_ROW}`]).toEqual({ text: '8 1/8', again: '8 1/4', note: 'scar' });
  });

  it('goes into the second measuring when told so, and never where there is no first', () => {
    const filled = { ...inches, cells: { [`right/${FIRST_ROW}`]: { text: '8' } } };
    const again = { row: FIRST_ROW, again: true };
    const plan = planPaste(cutPasted('8 1/8'), ['right'], filled, again);
    expect(withPasted(filled, plan).cells[`right/${FIRST_ROW}`]).toEqual({ text: '8', again: '8 1/8' });
    expect(planPaste(cutPasted('8 1/8\n8 3/8'), ['right'], filled, again).refused).toMatch(
      /^Line 2, right: Nothing stands there to be measured/,
    );
  });

  it('a first column that holds places of the sheet is taken for places', () => {
    const block = cutPasted('3\t8 3/8\n1 1/2\t8 1/8');
    expect(guessColumns(block, inches, 'right')).toEqual(['place', 'right']);
    expect(guessColumns(cutPasted('8\t8 1/8\n9\t9 1/8'), inches, 'right')).toEqual(['right', 'left']);
  });

  it.each([
    ['8 1/8\n1,234', ['right'], /^Line 2, right: “1,234” can be read two ways/],
    ['2\t8 1/8', ['place', 'right'], /^Line 1, right: The place “2” is not on this sheet/],
    ['8\t9', ['right', 'right'], /^Two columns are set to right/],
    [Array.from({ length: 11 }, () => '8').join('\n'), ['right'], /^11 lines for 10 rungs/],
    ['\n\n', ['right'], /no figures/],
  ] as const)('%j is refused by name', (text, columns, reason) => {
    expect(planPaste(cutPasted(text), columns, inches, FROM_FIRST).refused).toMatch(reason);
  });
});
