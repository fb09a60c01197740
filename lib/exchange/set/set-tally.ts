import type { SetPart, SetTable } from './set-table';

/** What was written into a set: each patient's reference, and how many rows each table has. It tells a set that another program changed. */
export type SetTally = { readonly references: readonly string[]; readonly rows: Readonly<Record<string, number>> };

/** Counts a set while it is written. */
export type SetCounter = { readonly noted: (table: SetTable, part: SetPart, lines: string) => string; readonly tally: () => SetTally };

/** A fresh count. `noted` takes the lines of one patient in one table and gives them back. */
export function setCounter(): SetCounter {
  const references = new Set<string>();
  const rows: Record<string, number> = {};
  return {
    noted(table, { file }, lines) {
      references.add(file.details.reference);
      rows[table.name] = (rows[table.name] ?? 0) + recordsIn(lines);
      return lines;
    },
    tally: () => ({ references: [...references], rows }),
  };
}

/** Records of a CSV text: line ends outside of quotes. Linear in the text. */
function recordsIn(text: string): number {
  let records = 0;
  let quoted = false;
  for (const character of text) {
    if (character === '"') quoted = !quoted;
    else if (character === '\n' && !quoted) records += 1;
  }
  return records;
}
