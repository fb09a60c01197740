/** Every time zone this machine knows, UTC and the one that stands now among them, in order. */
export function timeZones(now: string): readonly string[] {
  return [...new Set([...Intl.supportedValuesOf('timeZone'), 'UTC', now])].sort();
}
