import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

/** Where the spreadsheet program is found. */
const PROGRAM = process.env.SPREADSHEET_PROGRAM ?? 'soffice';

/** Languages a file is opened and saved in, with the numbers that filters of the program know them by. */
export const LANGUAGES = { 'en-US': 1033, 'de-DE': 1031 } as const;
export type Language = keyof typeof LANGUAGES;

/** What the program calls itself. Throws, with what to install, where it is not on this machine. */
export function programVersion(): string {
  const ended = spawnSync(PROGRAM, ['--version'], { encoding: 'utf8' });
  if (ended.status === 0) return ended.stdout.trim();
  throw new Error(`${PROGRAM} is not on this machine: apt-get install -y --no-install-recommends libreoffice-calc`);
}

/**
 * Opens files in the spreadsheet program, without a window, and saves them in another form; gives the folder they are in.
 *
 * CSV is opened and saved as a person does who takes what is offered: in the language of the program, figures and days recognised, cells
 * parted and quoted as that language has it. Source: LibreOffice help, filter options for CSV, tokens 1 to 9.
 */
export function saveAs(files: readonly string[], form: 'xlsx' | 'ods' | 'csv', language: Language): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-saved-'));
  const number = LANGUAGES[language];
  const into =
    form === 'csv' ? `csv:Text - txt - csv (StarCalc):${language === 'de-DE' ? 59 : 44},34,76,1,,${number},false,true,false` : form;
  const from = files.some((file) => file.endsWith('.csv')) ? [`--infilter=CSV:44,34,76,1,,${number},false,true,false`] : [];
  const profile = `-env:UserInstallation=file://${path.join(folder, 'profile')}`;
  const ended = spawnSync(PROGRAM, [profile, '--headless', ...from, '--convert-to', into, '--outdir', folder, ...files], {
    encoding: 'utf8',
    timeout: 240_000,
  });
  if (ended.status !== 0) throw new Error(`The spreadsheet program failed: ${ended.stderr}`);
  fs.rmSync(path.join(folder, 'profile'), { recursive: true, force: true });
  return folder;
}
