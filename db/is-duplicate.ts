/** True when a write failed because a unique value was already there, on either engine. */
export function isDuplicate(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  if ('code' in error && (error.code === 'SQLITE_CONSTRAINT_UNIQUE' || error.code === '23505')) return true;
  return isDuplicate(error.cause);
}
