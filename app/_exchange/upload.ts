import { Unzip, UnzipInflate } from 'fflate';
import type { Upload } from '@/db/exchange/imports';
import { decodeText } from './decode-text';

/** More than this is not taken, as it comes or unpacked, bytes. 100,000 rows of ladders are about 8 MB. Clinic default. */
export const MOST_BYTES = 32 * 1024 * 1024;

/** More files than this are not unpacked: a set has fourteen. */
const MOST_FILES = 40;

/** Packed bytes that are unpacked before others have their turn: a thousand times as much may come out of them. */
const SLICE = 2 * 1024;

/** Why a file is not taken. */
export type NotTaken = 'too large' | 'empty' | 'not text' | 'not a set';

/** What each refusal says: what happened, what was kept, what to do. */
export const NOT_TAKEN: Readonly<Record<NotTaken, string>> = {
  'too large': 'The file is larger than 32 MB. Nothing was taken. Split it by patients and bring the parts in one by one.',
  empty: 'The file is empty, or none was chosen. Nothing was taken.',
  'not text': 'The file is not text. Nothing was taken. Save the spreadsheet as CSV and bring that in.',
  'not a set': 'The packed file cannot be opened, or holds something else than tables. Nothing was taken.',
};

/** A file's bytes as an upload: a packed set, a FHIR bundle, or a spreadsheet's text; or why it is not taken. */
export async function uploadFrom(fileName: string, bytes: Uint8Array): Promise<Upload | NotTaken> {
  if (bytes.length > MOST_BYTES) return 'too large';
  if (bytes.length === 0) return 'empty';
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return packedSet(fileName, bytes);
  const text = decodeText(bytes);
  if (text === undefined) return 'not text';
  if (text.trim() === '') return 'empty';
  return { fileName, form: /^\s*\{/.test(text) ? 'bundle' : 'spreadsheet', text };
}

/** Unpacked a slice at a time and counted as it comes out: what a pack says of its own sizes is not believed. */
async function packedSet(fileName: string, bytes: Uint8Array): Promise<Upload | NotTaken> {
  const found = new Map<string, Uint8Array[]>();
  let size = 0;
  let failed = false;
  const unpacker = new Unzip((file) => {
    const parts: Uint8Array[] = [];
    found.set(file.name.split('/').at(-1) ?? file.name, parts);
    file.ondata = (error, chunk) => {
      failed ||= error !== null;
      size += chunk?.length ?? 0;
      if (chunk && size <= MOST_BYTES) parts.push(chunk.slice());
    };
    if (found.size <= MOST_FILES) file.start();
  });
  unpacker.register(UnzipInflate);
  try {
    for (let at = 0; at < bytes.length; at += SLICE) {
      unpacker.push(bytes.subarray(at, at + SLICE), at + SLICE >= bytes.length);
      if (size > MOST_BYTES || found.size > MOST_FILES) return 'too large';
      await new Promise((resolve) => setImmediate(resolve));
    }
  } catch {
    return 'not a set';
  }
  if (failed || found.size === 0) return 'not a set';
  const texts = [...found].map(([name, parts]) => [name, decodeText(joined(parts))] as const);
  if (texts.some(([, text]) => text === undefined)) return 'not text';
  return { fileName, form: 'set', text: JSON.stringify(Object.fromEntries(texts)) };
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((bytes, part) => bytes + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
