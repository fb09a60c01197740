import { OpenedStore } from '@/app/_draft/opened-store';
import type { Sealed } from '@/app/_draft/seal';
import { noteKept } from './flag';
import type { Lock, Locked } from './lock';

/** The lock of this device: whose it is, by a name that tells nothing, for which build its files are kept, and how often a wrong code was typed. */
export type DeviceLock = Lock & { readonly person: string; readonly build: string; readonly wrongCodes: number };

/** A copy with the moment it was kept, ms. */
export type KeptCopy = Locked & { readonly keptAt: number };

const LOCK = 'lock';
const WAITING = 'waiting ';

const store = new OpenedStore('rungwise-offline', 'kept');
const get = (name: string) => store.ask('readonly', (kept) => kept.get(name));
const put = (name: string, value: unknown) => store.ask('readwrite', (kept) => kept.put(value, name));
const drop = (name: string) => store.ask('readwrite', (kept) => kept.delete(name));

export async function deviceLock(): Promise<DeviceLock | undefined> {
  return (await get(LOCK)) as DeviceLock | undefined;
}

export async function keepLock(lock: DeviceLock): Promise<void> {
  await put(LOCK, lock);
  noteKept(true);
}

export async function copyOf(name: string): Promise<KeptCopy | undefined> {
  return (await get(name)) as KeptCopy | undefined;
}

export async function keepCopy(name: string, copy: Locked): Promise<void> {
  await put(name, { ...copy, keptAt: Date.now() });
}

/** The copies by name: sheets and the list, neither the lock nor visits that wait. */
export async function copyNames(): Promise<readonly string[]> {
  const names = (await store.ask('readonly', (kept) => kept.getAllKeys())) as string[];
  return names.filter((name) => name !== LOCK && !name.startsWith(WAITING));
}

export async function keepWaiting(submissionId: string, visit: Sealed): Promise<void> {
  await put(WAITING + submissionId, visit);
  noteKept(true);
}

export async function dropWaiting(submissionId: string): Promise<void> {
  await drop(WAITING + submissionId);
}

/** Visits that wait to be sent, by the id under which they are sent. */
export async function waitingVisits(): Promise<ReadonlyMap<string, Sealed>> {
  const names = (await store.ask('readonly', (kept) => kept.getAllKeys())) as string[];
  const waiting = new Map<string, Sealed>();
  for (const name of names.filter((one) => one.startsWith(WAITING))) waiting.set(name.slice(WAITING.length), (await get(name)) as Sealed);
  return waiting;
}

const DAY_MS = 86_400_000;

/** Takes away copies of more than a day: they open no more, and an erased patient's leave the device. */
export async function dropOld(): Promise<void> {
  for (const name of await copyNames()) if (Date.now() - ((await copyOf(name))?.keptAt ?? 0) > DAY_MS) await drop(name);
}

/** Takes away lock and copies, the kept files, and what answers without a connection. A visit that was not sent stays: only its own person can open it. */
export async function forget(): Promise<void> {
  for (const name of await copyNames()) await drop(name);
  await drop(LOCK);
  await globalThis.caches?.delete('rungwise-files');
  for (const one of (await navigator.serviceWorker?.getRegistrations()) ?? []) await one.unregister();
  noteKept((await waitingVisits()).size > 0);
}
