/** Lets whatever else waits in this process go first. On a file every statement ends before anything else runs: a long round of them says where it may pause. */
export function letOthers(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}
