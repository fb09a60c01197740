/** A moment as it stands in the name of a file: `2026-11-25T17-30-05Z`. */
export function fileStamp(at: Date): string {
  return `${at.toISOString().slice(0, 19).replaceAll(':', '-')}Z`;
}
