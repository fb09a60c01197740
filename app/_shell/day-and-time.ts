/** Shows moments on a clinic's own clock, the same on the server and in any browser: `25 Nov 2026, 14:31`. */
export function dayAndTime(timeZone: string): Intl.DateTimeFormat {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short', timeZone });
}
