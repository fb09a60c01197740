import { unzipSync } from 'fflate';
import type { Upload } from '@/db/imports';
import { decodeText } from './decode-text';

/** More than this is not taken, as it comes or unpacked, bytes. 100,000 rows of ladders are about 8 MB. Clinic default. */
export const MOST_BYTES = 32 * 1024 * 1024;

/** More files than this are not unpacked: a set has fourteen. */
const MOST_FILES = 40;

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
export function uploadFrom(fileName: string, bytes: Uint8Array): Upload | NotTaken {
  if (bytes.length > MOST_BYTES) return 'too large';
  if (bytes.length === 0) return 'empty';
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return packedSet(fileName, bytes);
  const text = decodeText(bytes);
  if (text === undefined) return 'not text';
  if (text.trim() === '') return 'empty';
  return { fileName, form: /^\s*\{/.test(text) ? 'bundle' : 'spreadsheet', text };
}

function packedSet(fileName: string, bytes: Uint8Array): Upload | NotTaken {
  let size = 0;
  let files = 0;
  try {
    const unpacked = unzipSync(bytes, {
      filter: ({ originalSize }) => {
        size += originalSize;
        files += 1;
        return size <= MOST_BYTES && files <= MOST_FILES;
      },
    });
    if (size > MOST_BYTES || files > MOST_FILES) return 'too large';
    const texts = Object.entries(unpacked).map(([name, content]) => [name.split('/').at(-1) ?? name, decodeText(content)] as const);
    if (texts.some(([, text]) => text === undefined)) return 'not text';
    return { fileName, form: 'set', text: JSON.stringify(Object.fromEntries(texts)) };
  } catch {
    return 'not a set';
  }
}
