import { useEffect, useEffectEvent, useState } from 'react';
import { timeIn } from '@/app/_auth/today';
import { changedFigures } from '@/lib/entry/changed-figures';
import type { DraftContent, SheetData } from '@/lib/entry/entry-data';
import { browserStore } from './browser-store';
import { DeviceCopy } from './device-copy';
import { DraftKeeper, type DraftState } from './draft-keeper';
import { askDraft, postDraft } from './draft-on-server';
import { metOnDevice } from './met-on-device';
import { noteLeft, wasLeft } from './opened-before';

/** How a draft stands: with the server, and on this device while the server does not have all of it. */
export type DraftStands = {
  readonly keeper: DraftKeeper;
  readonly state: DraftState;
  /** Whether what the server lacks lies in the browser's own store, so that it outlives this window. */
  readonly isOnDevice: boolean;
  /** How many figures were brought back from this device when the sheet was opened. */
  readonly broughtBack: number;
  /** An old page shown again asks the server first. */
  readonly isOpening: boolean;
};

/**
 * The keeper of this sheet's draft, and how it stands. While anything is not on the server the browser warns before it is closed.
 *
 * `take` puts another draft on the sheet: one that an earlier window left on this device.
 */
export function useDraft(data: SheetData, content: DraftContent, take: (content: DraftContent) => void): DraftStands {
  const [state, setState] = useState<DraftState>(data.draftAt ? { kind: 'saved', at: data.draftAt } : { kind: 'nothing' });
  const [isOnDevice, setOnDevice] = useState(false);
  const [broughtBack, setBroughtBack] = useState(0);
  const [isOpening, setOpening] = useState(false);
  const [{ keeper, device }] = useState(() => {
    const waiting = typeof window === 'undefined' ? undefined : new DeviceCopy(data.device, browserStore(), setOnDevice);
    const post = (version: number, sent: DraftContent) => postDraft(data, version, sent);
    const place = waiting ?? { put: () => undefined, drop: () => undefined };
    return {
      device: waiting,
      keeper: new DraftKeeper({ content, version: data.draftVersion }, post, setState, () => timeIn(data.timeZone), place),
    };
  });
  useEffect(() => keeper.change(content), [keeper, content]);
  const bringBack = useEffectEvent(async () => {
    const copy = await device?.found();
    if (!copy) return;
    const base = data.base === undefined ? {} : { base: data.base };
    const server = { content: { form: data.form, submissionId: data.submissionId, ...base }, version: data.draftVersion };
    const met = metOnDevice(copy, server);
    if (met === 'same') return void device?.drop();
    take(copy.content);
    if (met === 'goes on') setBroughtBack(changedFigures(copy.content.form, data.form));
    else keeper.apart(data.draftVersion === 0 ? null : { ...server, at: data.draftAt ?? '' });
  });
  /** An old page shown again asks the server how the draft stands; where it answers, the page is made anew. */
  const open = useEffectEvent(async () => {
    if (!wasLeft(data.openedId)) return bringBack();
    setOpening(true);
    if ((await askDraft(data)) !== undefined) return window.location.reload();
    await bringBack();
    setOpening(false);
  });
  const leave = useEffectEvent(() => {
    if (keeper.isAhead()) void keeper.flush();
    noteLeft(data.openedId);
  });
  useEffect(() => {
    void open();
    return () => leave();
  }, []);
  useEffect(() => onLeaving(keeper, data), [keeper, data]);
  return { keeper, state, isOnDevice, broughtBack, isOpening };
}

/** What happens when the window is about to go, comes back, or is on the network again. */
function onLeaving(keeper: DraftKeeper, data: SheetData): () => void {
  const warn = (event: BeforeUnloadEvent) => {
    if (keeper.isAhead()) event.preventDefault();
  };
  const now = () => {
    if (keeper.isAhead()) void keeper.flush();
  };
  /** A page that the browser kept whole and shows again: its draft may have gone on elsewhere. */
  const shown = async (event: PageTransitionEvent) => {
    if (!event.persisted) return;
    if (keeper.isAhead()) return now();
    const draft = await askDraft(data);
    if (draft !== undefined && (draft?.version ?? 0) !== keeper.over()) window.location.reload();
  };
  window.addEventListener('beforeunload', warn);
  window.addEventListener('online', now);
  window.addEventListener('pageshow', shown);
  document.addEventListener('visibilitychange', now);
  return () => {
    window.removeEventListener('beforeunload', warn);
    window.removeEventListener('online', now);
    window.removeEventListener('pageshow', shown);
    document.removeEventListener('visibilitychange', now);
  };
}
