/** Sheets that this window has opened and left: the framework shows them again, as they were, on Back and Forward. */
const left = new Set<string>();

/** Notes that a sheet was left; `openedId` is new each time the server makes the page. */
export function noteLeft(openedId: string): void {
  left.add(openedId);
}

/** Whether a page is an old one shown again, so that the server must be asked how its draft stands now. */
export function wasLeft(openedId: string): boolean {
  return left.has(openedId);
}
