import 'server-only';

/** The secret that signs sessions and seals second factors. */
export function authSecret(): string {
  const text = process.env.AUTH_SECRET;
  if (!text || text.length < 32) throw new Error('AUTH_SECRET is missing or shorter than 32 characters. npm run up makes one by itself.');
  return text;
}
