import { describe, expect, it } from 'vitest';
import { LONGEST_BOOKING } from '@/lib/diary/booking';
import { CsvRefusal, type CsvRow } from '@/lib/exchange/csv-table';
import { readBooked } from '@/lib/exchange/set/noted-tables';

const row = (cells: Readonly<Record<string, string>>): CsvRow => ({ line: 2, cell: (column) => cells[column] ?? '' });
const BOOKED = { subject_id: 'S1', day: '2026-12-01', time: '09:30', state: 'booked' };

describe('a booking of a set', () => {
  it('is read with words as long as a form takes, and refused by its cell where they are longer', () => {
    const what = 'x'.repeat(LONGEST_BOOKING);
    expect(readBooked([row({ ...BOOKED, what })]).bookings).toEqual([{ day: '2026-12-01', time: '09:30', what, state: 'booked' }]);
    for (const [column, cells] of [
      ['what', { ...BOOKED, what: `${what}x` }],
      ['time', { ...BOOKED, time: '24:00' }],
      ['state', { ...BOOKED, state: 'perhaps' }],
    ] as const) {
      const fault = (() => {
        try {
          readBooked([row(cells)]);
          return undefined;
        } catch (error) {
          return error instanceof CsvRefusal ? error.fault : error;
        }
      })();
      expect(fault, column).toMatchObject({ line: 2, column });
    }
  });
});
