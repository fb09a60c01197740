/** Where the words of one event stand: the row above the plot, counted from the plot upward, and from which end they are written. */
export type EventLabel = { readonly row: number; readonly anchor: 'start' | 'end'; readonly words: string };

/** Mean width of a letter at 12 px in the faces of the page, rounded up, px. */
const LETTER_PX = 6.3;
/** From the event's line to its words, and at least this much between the words of two events, px. */
const OFF = 8;

/**
 * The words of events in rows above a plot, so that none overlap and none leave the plot's width.
 *
 * Words stand right of their line where they fit, otherwise left of it; words longer than either side are cut with “…” (the list under
 * the chart has them whole). From the last event to the first each takes the lowest free row, so that no line runs through the words of
 * an event before it. Example: two events 8 px apart take rows 1 and 0.
 */
export function eventLabels(events: readonly { readonly x: number; readonly words: string }[], fromX: number, toX: number): EventLabel[] {
  const taken: { from: number; to: number }[][] = [];
  const placed = [...events].reverse().map(({ x, words }): EventLabel => {
    const right = toX - x - OFF;
    const left = x - fromX - OFF;
    const anchor = words.length * LETTER_PX <= right || right >= left ? 'start' : 'end';
    const most = Math.max(Math.floor(Math.max(anchor === 'start' ? right : left, 0) / LETTER_PX), 1);
    const fitting = words.length <= most ? words : `${words.slice(0, most - 1).trimEnd()}…`;
    const width = fitting.length * LETTER_PX;
    const [from, to] = anchor === 'start' ? [x - OFF, x + OFF + width] : [x - OFF - width, x + OFF];
    let row = taken.findIndex((spans) => spans.every((span) => to + OFF <= span.from || span.to + OFF <= from));
    if (row < 0) row = taken.push([]) - 1;
    taken[row]?.push({ from, to });
    return { row, anchor, words: fitting };
  });
  return placed.reverse();
}
