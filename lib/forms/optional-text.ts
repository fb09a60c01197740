type Read<T> = { readonly kind: 'read'; readonly value: T } | { readonly kind: 'refused' | 'ask'; readonly reason: string };

/** What a box says: its value, or null when it is empty or was refused; the reason goes to `refuse`. */
export function optionalText<T>(text: string, reader: (text: string) => Read<T>, refuse: (reason: string) => void): T | null {
  if (text.trim() === '') return null;
  const reading = reader(text);
  if (reading.kind === 'read') return reading.value;
  refuse(reading.reason);
  return null;
}

/** A text without the blanks around it, or null when nothing is left. */
export function orNull(text: string): string | null {
  return text.trim() === '' ? null : text.trim();
}
