/**
 * JSON with its keys in order, as `JSON.stringify` would write it otherwise: PostgreSQL gives keys back in an order of its own.
 *
 * Undefined members are left away; a moment is its text.
 */
export function canonical(value: unknown): string {
  if (value === null || typeof value !== 'object') return JSON.stringify(value) ?? 'null';
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if ('toJSON' in value) return JSON.stringify(value);
  const given = value as Readonly<Record<string, unknown>>;
  let text = '';
  for (const key of Object.keys(given).sort()) {
    const member = given[key];
    if (member !== undefined) text += `${text === '' ? '' : ','}${JSON.stringify(key)}:${canonical(member)}`;
  }
  return `{${text}}`;
}
