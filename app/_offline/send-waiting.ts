import { parse } from 'devalue';
import { browserStore } from '@/app/_draft/browser-store';
import { keyOf, sealed, unsealed } from '@/app/_draft/seal';
import type { NotSaved } from '@/app/_sheet/save-new-visit';
import type { DeviceKey } from '@/lib/entry/entry-data';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { dropWaiting, keepWaiting, waitingVisits } from './kept';

/** A visit that was finished without a connection, with all that sending it or opening it again takes. */
export type WaitingVisit = {
  readonly patientId: string;
  readonly name: string;
  readonly submissionId: string;
  readonly form: VisitForm;
  readonly leftOpen: readonly string[];
  /** On the clinic's clock. */
  readonly finishedAt: string;
  /** Where its draft lies on this device, and the version on the server that it was typed over. */
  readonly device: DeviceKey;
  readonly version: number;
  /** Why the server did not take it: it is on its sheet again, and said until that was opened. */
  readonly back?: string;
};

/** What the server said to a visit that was sent. */
export type FinishAnswer =
  | NotSaved
  | { readonly kind: 'saved'; readonly visitId: string }
  | { readonly kind: 'offline' }
  | { readonly kind: 'signed-out' };

/**
 * What became of a visit that waited: saved; back on its sheet, because the server asks or refuses; or still waiting (without a name while nobody is
 * signed in who could open it). `renewed`: this device wants making ready for a new build. `id` is the submission's, or the kind's.
 */
export type Landed = { readonly id: string } & (
  | { readonly kind: 'renewed' }
  | { readonly kind: 'saved'; readonly name: string; readonly href: string; readonly finishedAt: string }
  | { readonly kind: 'back'; readonly name: string; readonly href: string; readonly why: string }
  | { readonly kind: 'waits'; readonly name: string | null; readonly why: 'offline' | 'signed-out' }
);

/** Sends a finished visit. The same submission sent twice is one visit. */
export async function postFinished(visit: Pick<WaitingVisit, 'patientId' | 'submissionId' | 'form' | 'leftOpen'>): Promise<FinishAnswer> {
  const { patientId, submissionId, form, leftOpen } = visit;
  try {
    const response = await fetch(`/patients/${patientId}/visits/new/finish`, {
      method: 'POST',
      redirect: 'manual',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ submissionId, form, leftOpen }),
    });
    if (response.type === 'opaqueredirect' || response.status === 401) return { kind: 'signed-out' };
    if (response.ok) return parse(await response.text());
    return isForGood(response.status) ? refusedWith(response.status) : { kind: 'offline' };
  } catch {
    return { kind: 'offline' };
  }
}

/** Whether the server would say the same again: what it could not do just now is tried again. */
function isForGood(status: number): boolean {
  return status >= 400 && status < 500 && status !== 408 && status !== 429;
}

function refusedWith(status: number): FinishAnswer {
  return { kind: 'refused', refusals: [{ where: 'form', reason: `The server refused it as it was sent (${status}).` }] };
}

/** Keeps a finished visit sealed until it can be sent; false where the browser keeps nothing. */
export async function keepFinished(waiting: DeviceKey, visit: WaitingVisit): Promise<boolean> {
  try {
    const key = await keyOf(waiting.key);
    if (!key) return false;
    await keepWaiting(visit.submissionId, await sealed(key, waiting.name, visit));
    return true;
  } catch {
    return false;
  }
}

/** The visits of this person that wait, as they were finished; those of anybody else cannot be opened and are left. */
export async function readWaiting(waiting: DeviceKey): Promise<readonly WaitingVisit[]> {
  const key = await keyOf(waiting.key);
  if (!key) return [];
  const found = await Promise.all([...(await waitingVisits()).values()].map((one) => unsealed(key, waiting.name, one)));
  return found.filter((one) => one !== undefined) as WaitingVisit[];
}

/** Sends what waits, one after another. One that is not taken goes back to its sheet as a draft, which is said on every page until that sheet (`path`) is opened. */
export async function sendWaiting(waiting: DeviceKey, path: string): Promise<readonly Landed[]> {
  const landed: Landed[] = [];
  for (const visit of await readWaiting(waiting)) {
    if (visit.back !== undefined && path === sheetOf(visit)) await dropWaiting(visit.submissionId);
    else landed.push(await sendOne(waiting, visit));
  }
  return landed;
}

function sheetOf({ patientId }: WaitingVisit): string {
  return `/patients/${patientId}/visits/new`;
}

async function sendOne(waiting: DeviceKey, visit: WaitingVisit): Promise<Landed> {
  const { name, patientId, submissionId: id, finishedAt, back } = visit;
  if (back !== undefined) return { id, kind: 'back', name, href: sheetOf(visit), why: back };
  const answer = await postFinished(visit);
  if (answer.kind === 'offline' || answer.kind === 'signed-out') return { id, kind: 'waits', name, why: answer.kind };
  if (answer.kind === 'saved') {
    await dropWaiting(id);
    return { id, kind: 'saved', name, href: `/patients/${patientId}/visits/${answer.visitId}`, finishedAt };
  }
  await backToItsSheet(visit);
  const why = whyNot(answer);
  await keepFinished(waiting, { ...visit, back: why });
  return { id, kind: 'back', name, href: sheetOf(visit), why };
}

async function backToItsSheet({ device, form, submissionId, version }: WaitingVisit): Promise<void> {
  const key = await keyOf(device.key);
  if (key) await browserStore().put(device.name, await sealed(key, device.name, { content: { form, submissionId }, version }));
}

function whyNot(answer: NotSaved): string {
  if (answer.kind === 'refused') return answer.refusals[0]?.reason ?? 'The server refused it.';
  const count = answer.asks.length + answer.ofVisit.length;
  return `Read beside what is on record now, ${count === 1 ? 'one question is' : `${count} questions are`} open.`;
}
