import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { flatWorkbook } from './flat-workbook';
import { SAMPLES } from './sample-workbooks';
import { programVersion, saveAs } from './spreadsheet-program';

/** Has the spreadsheet program make the eight sample workbooks, and puts them into a folder. */
export function makeSamples(to: string): number {
  programVersion();
  const flat = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-flat-'));
  const files = Object.entries(SAMPLES).map(([name, { rows }]) => {
    const file = path.join(flat, `${name}.fods`);
    fs.writeFileSync(file, flatWorkbook(rows));
    return file;
  });
  const made = saveAs(files, 'xlsx', 'en-US');
  fs.mkdirSync(to, { recursive: true });
  const books = fs.readdirSync(made).filter((name) => name.endsWith('.xlsx'));
  for (const name of books) fs.copyFileSync(path.join(made, name), path.join(to, name));
  for (const folder of [flat, made]) fs.rmSync(folder, { recursive: true, force: true });
  return books.length;
}
