import type { Upload } from '@/db/exchange/imports';
import { MOST_BYTES, NOT_TAKEN, uploadFrom } from './upload';
import { looksLikeWorkbook, readWorkbookSheet } from './workbook';

/** A file that is taken, and what is said of it; or why it is not, in a sentence. */
export type Taken =
  | { readonly kind: 'taken'; readonly upload: Upload; readonly said: readonly string[] }
  | { readonly kind: 'refused'; readonly reason: string };

/** A file's bytes as an upload, whichever kind it is. `sheet` names the sheet of a workbook with several; empty where there is one. */
export async function takenFrom(fileName: string, bytes: Uint8Array, sheet: string): Promise<Taken> {
  if (bytes.length <= MOST_BYTES && looksLikeWorkbook(bytes)) {
    const read = await readWorkbookSheet(bytes, sheet, MOST_BYTES).catch(() => undefined);
    if (!read) return { kind: 'refused', reason: 'The workbook cannot be read. Save it once more as .xlsx, or as CSV. Nothing was taken.' };
    if (read.kind === 'refused') return read;
    return { kind: 'taken', upload: { fileName, form: 'spreadsheet', text: read.text }, said: read.said };
  }
  const upload = await uploadFrom(fileName, bytes);
  return typeof upload === 'string' ? { kind: 'refused', reason: NOT_TAKEN[upload] } : { kind: 'taken', upload, said: [] };
}
