import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { SetPart, SetTable } from './set-table';

/**
 * What was written into a set: each patient's reference, how many rows each table has, and the SHA-256 of its lines below the header (a set
 * from before had none). It tells a set that another program changed.
 */
export type SetTally = {
  readonly references: readonly string[];
  readonly rows: Readonly<Record<string, number>>;
  readonly sums?: Readonly<Record<string, string>> | undefined;
};

/** Counts a set while it is written. */
export type SetCounter = { readonly noted: (table: SetTable, part: SetPart, lines: string) => string; readonly tally: () => SetTally };

/** A fresh count. `noted` takes the lines of one patient in one table and gives them back. */
export function setCounter(): SetCounter {
  const references = new Set<string>();
  const rows: Record<string, number> = {};
  const sums = new Map<string, ReturnType<typeof sha256.create>>();
  return {
    noted(table, { file }, lines) {
      references.add(file.details.reference);
      rows[table.name] = (rows[table.name] ?? 0) + recordsIn(lines);
      sums.set(table.name, (sums.get(table.name) ?? sha256.create()).update(utf8ToBytes(lines)));
      return lines;
    },
    tally: () => ({
      references: [...references],
      rows,
      sums: Object.fromEntries([...sums].map(([name, sum]) => [name, bytesToHex(sum.clone().digest())])),
    }),
  };
}

/** The sum of a table's lines as `tally` has it: of everything below its first line. */
export function sumOfTable(text: string): string {
  const below = text.slice(text.indexOf('\n') + 1);
  return bytesToHex(sha256(utf8ToBytes(below)));
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
