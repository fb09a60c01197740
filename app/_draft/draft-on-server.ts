import type { DraftContent, MetDraft, SheetData } from '@/lib/entry/entry-data';
import { browserStore } from './browser-store';
import type { DraftAnswer } from './draft-keeper';

/** Sends a draft over the version it started from. */
export async function postDraft(data: SheetData, version: number, content: DraftContent): Promise<DraftAnswer> {
  try {
    const headers = { 'content-type': 'application/json' };
    const body = JSON.stringify({ kind: data.draftKind, version, content });
    const response = await fetch(address(data), { method: 'POST', redirect: 'manual', headers, body });
    if (response.type === 'opaqueredirect' || response.status === 401) return { kind: 'signed-out' };
    if (response.status === 409) {
      const { draft, savedAs } = await response.json();
      return { kind: 'newer', theirs: draft, ...(savedAs ? { savedAs } : {}) };
    }
    return response.ok ? { kind: 'kept', version: (await response.json()).version } : { kind: 'offline' };
  } catch {
    return { kind: 'offline' };
  }
}

/** The draft as the server holds it now, null for none; undefined when it does not answer. */
export async function askDraft(data: SheetData): Promise<MetDraft | null | undefined> {
  try {
    const response = await fetch(`${address(data)}?kind=${encodeURIComponent(data.draftKind)}`, { redirect: 'manual', cache: 'no-store' });
    return response.ok ? (await response.json()).draft : undefined;
  } catch {
    return undefined;
  }
}

/** Gives the draft up, on the server and on this device. */
export async function giveUpDraft(data: SheetData): Promise<boolean> {
  try {
    const given = await fetch(`${address(data)}?kind=${encodeURIComponent(data.draftKind)}`, { method: 'DELETE', redirect: 'manual' });
    if (given.ok)
      await browserStore()
        .drop(data.device.name)
        .catch(() => undefined);
    return given.ok;
  } catch {
    return false;
  }
}

function address(data: SheetData): string {
  return `/patients/${data.patientId}/visits/new/draft`;
}
