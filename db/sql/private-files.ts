import fs from 'node:fs';

/** Makes a folder, and those above it that are missing, for this user only. One that is there stays as its owner set it. */
export function privateFolder(folder: string): void {
  fs.mkdirSync(folder, { recursive: true, mode: 0o700 });
}

/**
 * Makes a file, when it is not there, and takes it from everybody but its owner, whatever the umask; its content stays.
 *
 * A file of somebody else, or on a disk that is read only, stays as it is.
 */
export function privateFile(file: string): void {
  if (!fs.existsSync(file)) fs.closeSync(fs.openSync(file, 'a', 0o600));
  const { mode } = fs.statSync(file);
  if ((mode & 0o077) === 0) return;
  try {
    fs.chmodSync(file, mode & 0o700);
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && (error.code === 'EPERM' || error.code === 'EROFS'))) throw error;
  }
}

/** A moment as it stands in the name of a file: `2026-11-25T17-30-05Z`. */
export function fileStamp(at: Date): string {
  return `${at.toISOString().slice(0, 19).replaceAll(':', '-')}Z`;
}
