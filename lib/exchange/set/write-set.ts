import { type CalendarDay, daysBetween } from '../../units/calendar-day';
import { csvText } from '../csv-text';
import { defused, isWords } from './defused';
import { PROMPT, VOLUME } from './found-tables';
import { KEPT_QUESTION, LADDER, LANDMARK, RUNG } from './ladder-tables';
import { NAMED_MEASURE } from './measure-table';
import { BOOKED, FOR_THE_WORK, LEFT, OBSERVED, OBSERVED_FIGURE } from './noted-tables';
import { CAUTION, EVENT, ORDER, PHASE, PIECE } from './piece-tables';
import { FAMILY_REPLIED } from './reply-table';
import type { Column, SetPart, SetTable } from './set-table';
import { BODY_MEASURE, SUBJECT, VISIT } from './visit-tables';

/** Every table of a set, in the order a reader meets them. */
export const SET_TABLES: readonly SetTable[] = [
  SUBJECT,
  VISIT,
  BODY_MEASURE,
  NAMED_MEASURE,
  LADDER,
  RUNG,
  LANDMARK,
  KEPT_QUESTION,
  PIECE,
  ORDER,
  EVENT,
  PHASE,
  CAUTION,
  FOR_THE_WORK,
  BOOKED,
  OBSERVED,
  OBSERVED_FIGURE,
  LEFT,
  FAMILY_REPLIED,
  VOLUME,
  PROMPT,
];

/**
 * How a set is written. `research` leaves out names, references, words, JSON and clock times and turns each day into the age on it in
 * completed weeks, so that neither a birthday nor a visit's day can be worked out;
 * `defused` puts an apostrophe before words that a spreadsheet could take for a formula.
 */
export type SetStyle = { readonly research: boolean; readonly defused: boolean };

const NOT_FOR_RESEARCH: readonly Column['kind'][] = ['identity', 'free-text', 'json', 'moment'];

/** The columns of a table that a style has, as they are in the table. */
function columnsKept(table: SetTable, style: SetStyle): readonly Column[] {
  return style.research ? table.columns.filter(({ kind, tellsWhen }) => !tellsWhen && !NOT_FOR_RESEARCH.includes(kind)) : table.columns;
}

/** The columns of a table as a style writes them: in a research export a day is an age in days. */
export function columnsIn(table: SetTable, style: SetStyle): readonly Column[] {
  return columnsKept(table, style).map((column) => (style.research && column.kind === 'day' ? asAge(column) : column));
}

function asAge({ name, says }: Column): Column {
  return {
    name: name === 'day' ? 'age_weeks' : `${name}_age_weeks`,
    kind: 'whole',
    unit: 'wk',
    says: `${says.replace(/\.$/, '')}, as age in completed weeks.`,
  };
}

/** A table's first line. */
export function headerLine(table: SetTable, style: SetStyle): string {
  return csvText([columnsIn(table, style).map(({ name }) => name)]);
}

/**
 * One patient's lines of a table, to stand below the header and other patients' lines.
 *
 * Shape: a table, a patient, a style; CSV text without a header. Source: RFC 4180.
 */
export function linesOf(table: SetTable, part: SetPart, style: SetStyle): string {
  return csvText(rowsOf(table, part, style));
}

/** One patient's rows of a table as cells, in the order of its columns. */
export function rowsOf(table: SetTable, part: SetPart, style: SetStyle): readonly (readonly string[])[] {
  const columns = columnsKept(table, style);
  const { born } = part.file.details;
  return table.rows(part).map((cells) => columns.map((column) => written(column, cells[column.name] ?? '', style, born)));
}

function written({ kind }: Column, cell: string, style: SetStyle, born: CalendarDay): string {
  if (style.research && kind === 'day') return cell === '' ? '' : String(Math.floor(daysBetween(born, cell as CalendarDay) / 7));
  return style.defused && isWords(kind) ? defused(cell) : cell;
}
