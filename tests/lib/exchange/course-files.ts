import { PHASE_COLUMNS } from '@/lib/exchange/read-phases-csv';
import { row } from './files';

/** The printed arm of `tests/lib/volume/excess.test.ts`, cm every 4 cm from the wrist. */
export const ARM = {
  u1: [16, 17.5, 20, 22.5, 24.5, 25, 25.5, 27, 28.5, 29.5, 30],
  a1: [17.5, 20, 24, 27, 29, 29.5, 29.5, 30.5, 31.5, 32, 32],
  a2: [17, 19, 22.5, 25, 27, 27.5, 27.5, 29, 30.5, 31, 31],
  u2: [16, 17.6, 20.2, 22.6, 24.7, 25.2, 25.7, 27.2, 28.8, 29.8, 30.4],
};

/** Rows of both arms on a day, the left one affected (both where `both`), from the wrist up or from another place `from` in cm on. */
export function armRows(
  day: string,
  left: readonly number[],
  right: readonly number[] | null,
  { weight = '', both = false, from = 0, born = '1980-03-01' } = {},
): string[] {
  const arm = (side: 'left' | 'right', girths: readonly number[]) =>
    girths.map((girth, rung) =>
      row({
        patient: 'R-1',
        born,
        day,
        weight,
        limb: 'arm',
        side,
        affected: side === 'left' || both ? 'yes' : 'no',
        zero: 'wrist-crease',
        distance: String(from + 4 * rung),
        girth: String(Math.round(girth * 1000) / 1000),
      }),
    );
  return [...arm('left', left), ...(right ? arm('right', right) : [])];
}

/** A phases file of rows `patient,kind,from,until,baseline_day`. */
export function phasesFile(...rows: readonly string[]): string {
  return [PHASE_COLUMNS.join(','), ...rows, ''].join('\n');
}
