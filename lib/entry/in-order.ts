/** Plain data as text with its keys in order, so that the same content is the same text whoever wrote it. */
export function inOrder(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    part && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([one], [other]) => one.localeCompare(other)))
      : part,
  );
}
