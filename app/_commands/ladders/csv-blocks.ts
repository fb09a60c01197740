import fs from 'node:fs';
import { CsvRefusal } from '@/lib/exchange/csv-table';

/** Where a record of a CSV file stands: its bytes, from and to, and the line it begins on. */
export type RecordPlace = { readonly start: number; readonly end: number; readonly line: number };

/** Some whole records of a file: their bytes, and where each stands. */
export type CsvBlock = { readonly bytes: Buffer; readonly line: number; readonly records: readonly RecordPlace[] };

const CHUNK = 1 << 20;
/** A record longer than this is not read: its quotes do not close, or it is no table. Bytes. */
const LONGEST_RECORD = 4 << 20;
const [QUOTE, LF, CR] = [0x22, 0x0a, 0x0d];

/**
 * A CSV file in blocks of whole records, so that one of any size is read with little memory.
 *
 * A record ends at a line end outside quotes; an escaped quote closes and opens again, which changes nothing. Source: RFC 4180.
 */
export function* csvBlocks(handle: number): Generator<CsvBlock> {
  let rest: Buffer = Buffer.alloc(0);
  let offset = 0;
  let line = 1;
  for (let ended = false; !ended; ) {
    const chunk = Buffer.alloc(CHUNK);
    const size = fs.readSync(handle, chunk, 0, CHUNK, offset + rest.length);
    ended = size === 0;
    const bytes = Buffer.concat([rest, chunk.subarray(0, size)]);
    const records = recordsIn(bytes, offset, line, ended);
    const last = records.at(-1);
    const used = last ? last.end - offset : 0;
    if (last) yield { bytes: bytes.subarray(0, used), line, records };
    if (last) line = last.line + linesIn(bytes.subarray(last.start - offset, used));
    offset += used;
    rest = bytes.subarray(used);
    if (rest.length > LONGEST_RECORD)
      throw new CsvRefusal({ line, column: '', reason: 'The quotes of this row do not close, or it is longer than any row is.' });
  }
}

function recordsIn(bytes: Buffer, offset: number, firstLine: number, ended: boolean): RecordPlace[] {
  const records: RecordPlace[] = [];
  let quoted = false;
  let start = 0;
  let line = firstLine;
  let next = firstLine;
  for (let at = 0; at < bytes.length; at++) {
    const byte = bytes[at];
    if (byte === QUOTE) quoted = !quoted;
    else if (byte === LF || (byte === CR && bytes[at + 1] !== LF && (ended || at + 1 < bytes.length))) {
      next += 1;
      if (quoted) continue;
      records.push({ start: offset + start, end: offset + at + 1, line });
      start = at + 1;
      line = next;
    }
  }
  if (ended && start < bytes.length) records.push({ start: offset + start, end: offset + bytes.length, line });
  return records;
}

/** Line ends in bytes, those of any kind counting once. */
function linesIn(bytes: Buffer): number {
  let lines = 0;
  for (let at = 0; at < bytes.length; at++) if (bytes[at] === LF || (bytes[at] === CR && bytes[at + 1] !== LF)) lines += 1;
  return lines;
}
