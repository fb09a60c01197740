/**
 * Where to go after signing in: a path of this program, else the first screen.
 *
 * Refuses another host in any spelling (`//host`, `/\host`, `https:`), so that the sign-in page leads nowhere else.
 * Example: `/patients?q=hl` is kept; `//example.org` becomes `/`.
 */
export function returnPath(asked: string | undefined): string {
  return asked && /^\/(?![/\\])[^\\\s]*$/.test(asked) ? asked : '/';
}
