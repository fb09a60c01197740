import { parse } from 'devalue';
import type { DeviceKey } from '@/lib/entry/entry-data';
import { copyNames, copyOf, deviceLock, dropOld, forget, keepCopy, waitingVisits } from './kept';
import { type Lock, putIn } from './lock';
import { type KeptList, type KeptSheet, LIST } from './offline-data';
import { type Landed, sendWaiting } from './send-waiting';

/** Whoever is signed in, as a device knows them: a name that tells nothing, and the key of what waits to be sent. */
export type Signed = { readonly person: string; readonly build: string; readonly waiting: DeviceKey };

/** A copy is not fetched again within so long, ms. */
const YOUNG_MS = 2 * 60_000;

/**
 * What a device that keeps something does when a page is opened with a connection: sends what waits, and keeps the list and the sheet of the patient
 * who is looked at. Where nobody is signed in, or somebody else, what is kept of patients goes.
 */
export async function care(signed: Signed | null, path: string): Promise<readonly Landed[]> {
  const lock = await deviceLock();
  if (lock && lock.person !== signed?.person) await forget();
  if (!signed) return (await waitingVisits()).size > 0 ? [{ id: 'waits', kind: 'waits', name: null, why: 'signed-out' }] : [];
  const landed = await sendWaiting(signed.waiting, path);
  if (lock?.person !== signed.person) return landed;
  await dropOld();
  await keepFor(lock, path);
  return lock.build === signed.build ? landed : [...landed, { id: 'renewed', kind: 'renewed' }];
}

async function keepFor(lock: Lock, path: string): Promise<void> {
  const [, patientId] = /^\/patients\/([0-9a-f-]{36})(?:\/|$)/.exec(path) ?? [];
  if (patientId) await keepSheet(lock, patientId);
  else if (path === '/') await keepList(lock);
}

/** Fetches the list of today and the sheets of those who are due today, and keeps them; how many sheets this device has then, or undefined without a connection. */
export async function keepList(lock: Lock): Promise<number | undefined> {
  if (!(await isYoung(LIST))) {
    const list = await fetched<KeptList>('/offline/kept');
    if (!list) return undefined;
    await keepCopy(LIST, await putIn(lock, LIST, list));
    for (const patientId of list.dueToday) await keepSheet(lock, patientId);
  }
  return (await copyNames()).filter((name) => name !== LIST).length;
}

/** Sheets that this window has kept, by patient: a name on the device tells nothing of whose it is. */
const keptHere = new Map<string, number>();

async function keepSheet(lock: Lock, patientId: string): Promise<void> {
  if (Date.now() - (keptHere.get(patientId) ?? 0) < YOUNG_MS) return;
  const sheet = await fetched<KeptSheet>(`/offline/kept?patient=${patientId}`);
  if (!sheet) return;
  await keepCopy(sheet.data.device.name, await putIn(lock, sheet.data.device.name, sheet));
  keptHere.set(patientId, Date.now());
}

async function isYoung(name: string): Promise<boolean> {
  return Date.now() - ((await copyOf(name))?.keptAt ?? 0) < YOUNG_MS;
}

async function fetched<T>(address: string): Promise<T | undefined> {
  try {
    const response = await fetch(address, { redirect: 'manual', cache: 'no-store' });
    return response.ok ? (parse(await response.text()) as T) : undefined;
  } catch {
    return undefined;
  }
}
