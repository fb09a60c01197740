import { LADDER_COLUMNS } from '@/lib/exchange/ladder-cells';
import { PIECE_COLUMNS } from '@/lib/exchange/read-pieces-csv';

type LadderCells = Partial<Record<(typeof LADDER_COLUMNS)[number], string>>;
type PieceCells = Partial<Record<(typeof PIECE_COLUMNS)[number], string>>;

const PERSON: LadderCells = {
  patient: 'R-1',
  born: '1980-03-01',
  sex: 'F',
  day: '2026-01-05',
  limb: 'leg',
  side: 'left',
  affected: 'yes',
  zero: 'ankle-crease',
  unit: 'cm',
};

/** A row of a ladders file: an adult's left leg from the ankle crease in centimetres unless it says otherwise. */
export function row(cells: LadderCells): string {
  const all = { ...PERSON, ...cells };
  return LADDER_COLUMNS.map((column) => all[column] ?? '').join(',');
}

export const HEADER = LADDER_COLUMNS.join(',');
const PIECES_HEADER = PIECE_COLUMNS.join(',');

/** A ladders file of these rows. */
export function file(...rows: readonly string[]): string {
  return [HEADER, ...rows, ''].join('\n');
}

const PIECE: PieceCells = {
  patient: 'R-1',
  piece: '1',
  limb: 'leg',
  side: 'left',
  covers: 'ankle-crease to knee',
  cut_from: '2026-01-05',
  reduction: '15',
  convention: 'C(1-r)',
  allowance: '0',
  first_worn: '2026-01-20',
  life_days: '90',
  lead_days: '14',
};

/** A pieces file with one row. */
export function pieces(...rows: readonly PieceCells[]): string {
  return [PIECES_HEADER, ...rows.map((cells) => PIECE_COLUMNS.map((column) => ({ ...PIECE, ...cells })[column] ?? '').join(',')), ''].join(
    '\n',
  );
}

/** Three rungs and a knee, enough for a record. */
export const THREE = [
  row({ distance: '4', girth: '22.6' }),
  row({ distance: '8', girth: '25' }),
  row({ distance: '28', girth: '35', landmark: 'knee' }),
];
