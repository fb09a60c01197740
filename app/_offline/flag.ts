const FLAG = 'rungwise-offline';

/** Whether this device keeps a lock, or a visit that waits to be sent: told in a moment, without opening the store. */
export function keepsSomething(): boolean {
  try {
    return localStorage.getItem(FLAG) !== null;
  } catch {
    return false;
  }
}

/** Notes that it does, or that it no longer does. */
export function noteKept(keeps: boolean): void {
  if (keeps) localStorage.setItem(FLAG, '1');
  else localStorage.removeItem(FLAG);
}
