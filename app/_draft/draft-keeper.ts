import type { DraftContent, MetDraft } from '@/lib/entry/entry-data';
import { inOrder } from '@/lib/entry/in-order';
import type { VisitForm } from '@/lib/visit-form/visit-form';

/** How the draft stands: on the server, on its way, or not there yet, and why. */
export type DraftState =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'saved'; readonly at: string }
  | { readonly kind: 'saving' }
  | { readonly kind: 'unsaved'; readonly why: 'offline' | 'signed-out' }
  | Apart;

/** Two drafts of one sheet that each hold something the other has not; without `theirs` that draft was finished or given up. */
type Apart = {
  readonly kind: 'newer';
  readonly theirs: MetDraft | null;
  /** The visit that this very sheet was saved as. */
  readonly savedAs?: string;
};

/** What the server said to a draft that was sent. */
export type DraftAnswer = { readonly kind: 'kept'; readonly version: number } | Apart | { readonly kind: 'offline' | 'signed-out' };

/** Where a draft waits on this device while the server does not have all of it. */
export type WaitingPlace = {
  readonly put: (copy: { readonly content: DraftContent; readonly version: number }) => unknown;
  readonly drop: () => unknown;
};

/** Sends a draft over the version it started from. */
export type DraftPost = (version: number, content: DraftContent) => Promise<DraftAnswer>;

const WAIT_MS = 1000;
const AGAIN_MS = [2000, 4000, 8000];
const SAY_SAVING_MS = 400;

/**
 * Keeps what is typed on the server: a second after the last change, at once when asked, and again until it is there.
 *
 * One request at a time, each over the version before it, so that two windows never mix: a newer draft from elsewhere stops the
 * sending until a person has chosen. An answer that was lost on the way is recognised by its content. From the first change until all of
 * it is on the server a copy waits on the device.
 */
export class DraftKeeper {
  private content: DraftContent;
  private kept: VisitForm | null;
  private version: number;
  /** Everything sent since the last answer: one of them may be what the server holds. */
  private readonly unanswered = new Set<string>();
  private busy: Promise<boolean> | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private tries = 0;
  private stopped = false;
  private closed = false;

  constructor(
    start: { readonly content: DraftContent; readonly version: number },
    private readonly post: DraftPost,
    private readonly tell: (state: DraftState) => void,
    private readonly clock: () => string,
    private readonly device: WaitingPlace,
  ) {
    this.content = start.content;
    this.kept = start.content.form;
    this.version = start.version;
  }

  /** The content as it is now; what changed is sent after a pause. */
  change(content: DraftContent): void {
    if (content.form === this.content.form && content.submissionId === this.content.submissionId) return;
    this.content = content;
    if (this.closed) return;
    this.device.put({ content, version: this.version });
    if (!this.stopped) this.sendIn(WAIT_MS);
  }

  /** True while anything typed is not on the server. */
  isAhead(): boolean {
    return this.content.form !== this.kept && !this.closed;
  }

  /** True while a person has to choose between this draft and another. */
  isApart(): boolean {
    return this.stopped && !this.closed;
  }

  /** The version on the server that is typed over. */
  over(): number {
    return this.version;
  }

  /** The form that the server is known to hold. */
  keptForm(): VisitForm | null {
    return this.kept;
  }

  /** Sends what is not on the server yet; true when everything is there. */
  async flush(): Promise<boolean> {
    clearTimeout(this.timer);
    while (this.busy) await this.busy;
    if (this.stopped) return false;
    if (this.content.form === this.kept) return true;
    this.busy = this.send().finally(() => {
      this.busy = null;
    });
    return this.busy;
  }

  /** Goes on over the newer version, with what is typed here: a person has seen both and chosen this one. */
  overwrite(version: number): void {
    this.stopped = false;
    this.version = version;
    this.kept = null;
    void this.flush();
  }

  /** Goes on from a form that the server holds: a person has seen both and chosen that one. */
  startFrom(content: DraftContent, version: number, at: string): void {
    this.stopped = false;
    this.content = content;
    this.kept = content.form;
    this.version = version;
    this.device.drop();
    this.tell({ kind: 'saved', at });
  }

  /** Sends nothing until a person has chosen between this draft and the one on the server. */
  apart(theirs: MetDraft | null): void {
    this.stop({ kind: 'newer', theirs });
  }

  /** Nothing more is sent, or kept on this device: the visit is saved, or the draft given up. */
  async close(): Promise<void> {
    this.stopped = true;
    this.closed = true;
    clearTimeout(this.timer);
    await this.device.drop();
  }

  private stop(apart: Apart): void {
    this.stopped = true;
    this.kept = apart.theirs?.content.form ?? null;
    clearTimeout(this.timer);
    this.tell(apart);
  }

  private async send(): Promise<boolean> {
    const sending = this.content;
    const slow = setTimeout(() => this.tell({ kind: 'saving' }), SAY_SAVING_MS);
    const answer = await this.post(this.version, sending);
    clearTimeout(slow);
    if (this.stopped) return false;
    this.unanswered.add(inOrder(sending));
    const ours = answer.kind === 'newer' && answer.theirs !== null && this.unanswered.has(inOrder(answer.theirs.content));
    if (answer.kind === 'kept') return this.keep(sending, answer.version);
    if (answer.kind === 'newer') {
      if (ours && answer.theirs) {
        this.version = answer.theirs.version;
        return this.send();
      }
      this.stop(answer);
      return false;
    }
    this.tell({ kind: 'unsaved', why: answer.kind });
    this.sendIn(AGAIN_MS[Math.min(this.tries++, AGAIN_MS.length - 1)] ?? WAIT_MS);
    return false;
  }

  private keep(sent: DraftContent, version: number): boolean | Promise<boolean> {
    this.version = version;
    this.kept = sent.form;
    this.tries = 0;
    this.unanswered.clear();
    if (this.content.form !== sent.form) return this.send();
    this.device.drop();
    this.tell({ kind: 'saved', at: this.clock() });
    return true;
  }

  private sendIn(ms: number): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.flush(), ms);
  }
}
