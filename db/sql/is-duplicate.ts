const DUPLICATE = ['SQLITE_CONSTRAINT_UNIQUE', 'SQLITE_CONSTRAINT_PRIMARYKEY', '23505'];

/** True when a write failed because a unique value or a key was already there, on either engine. */
export function isDuplicate(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  if ('code' in error && DUPLICATE.some((code) => code === error.code)) return true;
  return isDuplicate(error.cause);
}
