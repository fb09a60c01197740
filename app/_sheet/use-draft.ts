import { useEffect, useState } from 'react';
import { type DraftAnswer, DraftKeeper, type DraftState } from './draft-keeper';
import type { DraftContent, SheetData } from './sheet-data';

/** The keeper of this sheet's draft, and how it stands. While anything is only in this window the browser warns before it is closed. */
export function useDraft(data: SheetData, content: DraftContent): { readonly keeper: DraftKeeper; readonly state: DraftState } {
  const [state, setState] = useState<DraftState>(data.draftAt ? { is: 'saved', at: data.draftAt } : { is: 'nothing' });
  const [keeper] = useState(() => {
    const address = draftAddress(data);
    const post = (version: number, sent: DraftContent) => postDraft(address, { kind: data.draftKind, version, content: sent });
    return new DraftKeeper({ content, version: data.draftVersion }, post, setState, clock);
  });
  useEffect(() => keeper.change(content), [keeper, content]);
  useEffect(() => {
    const warn = (event: BeforeUnloadEvent) => {
      if (keeper.isAhead()) event.preventDefault();
    };
    const now = () => {
      if (keeper.isAhead()) void keeper.flush();
    };
    window.addEventListener('beforeunload', warn);
    window.addEventListener('online', now);
    document.addEventListener('visibilitychange', now);
    return () => {
      window.removeEventListener('beforeunload', warn);
      window.removeEventListener('online', now);
      document.removeEventListener('visibilitychange', now);
    };
  }, [keeper]);
  return { keeper, state };
}

/** Gives the draft up on the server. */
export async function giveUpDraft(data: SheetData): Promise<boolean> {
  try {
    const address = `${draftAddress(data)}?kind=${encodeURIComponent(data.draftKind)}`;
    return (await fetch(address, { method: 'DELETE', redirect: 'manual' })).ok;
  } catch {
    return false;
  }
}

function draftAddress(data: SheetData): string {
  return `/patients/${data.patientId}/visits/new/draft`;
}

async function postDraft(address: string, body: unknown): Promise<DraftAnswer> {
  try {
    const headers = { 'content-type': 'application/json' };
    const response = await fetch(address, { method: 'POST', redirect: 'manual', headers, body: JSON.stringify(body) });
    if (response.type === 'opaqueredirect' || response.status === 401) return { is: 'signed-out' };
    if (response.status === 409) return { is: 'newer', theirs: (await response.json()).draft };
    return response.ok ? { is: 'kept', version: (await response.json()).version } : { is: 'offline' };
  } catch {
    return { is: 'offline' };
  }
}

function clock(): string {
  return new Date().toTimeString().slice(0, 5);
}
