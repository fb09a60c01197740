import type { VisitForm } from '@/lib/record/visit-form';
import type { DraftContent, MetDraft } from './sheet-data';

/** How the draft stands: on the server, on its way, or only in this window, and why. */
export type DraftState =
  | { readonly is: 'nothing' }
  | { readonly is: 'saved'; readonly at: string }
  | { readonly is: 'saving' }
  | { readonly is: 'unsaved'; readonly why: 'offline' | 'signed-out' }
  | { readonly is: 'newer'; readonly theirs: MetDraft | null };

/** What the server said to a draft that was sent. */
export type DraftAnswer =
  | { readonly is: 'kept'; readonly version: number }
  | { readonly is: 'newer'; readonly theirs: MetDraft | null }
  | { readonly is: 'offline' | 'signed-out' };

/** Sends a draft over the version it started from. */
export type DraftPost = (version: number, content: DraftContent) => Promise<DraftAnswer>;

const WAIT_MS = 1000;
const AGAIN_MS = [2000, 4000, 8000];
const SAY_SAVING_MS = 400;

/**
 * Keeps what is typed on the server: a second after the last change, at once when asked, and again until it is there.
 *
 * One request at a time, each over the version before it, so that two windows never mix: a newer draft from elsewhere stops the
 * keeping until a person has chosen. An answer that was lost on the way is recognised by its content.
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

  constructor(
    start: { readonly content: DraftContent; readonly version: number },
    private readonly post: DraftPost,
    private readonly tell: (state: DraftState) => void,
    private readonly clock: () => string,
  ) {
    this.content = start.content;
    this.kept = start.content.form;
    this.version = start.version;
  }

  /** The content as it is now; what changed is sent after a pause. */
  change(content: DraftContent): void {
    if (content.form === this.content.form && content.submissionId === this.content.submissionId) return;
    this.content = content;
    if (!this.stopped) this.sendIn(WAIT_MS);
  }

  /** True while anything typed is only in this window. */
  isAhead(): boolean {
    return this.content.form !== this.kept && !this.stopped;
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
    this.tell({ is: 'saved', at });
  }

  /** Nothing more is sent: the visit is saved, or the draft given up. */
  close(): void {
    this.stopped = true;
    clearTimeout(this.timer);
  }

  private async send(): Promise<boolean> {
    const sending = this.content;
    const slow = setTimeout(() => this.tell({ is: 'saving' }), SAY_SAVING_MS);
    const answer = await this.post(this.version, sending);
    clearTimeout(slow);
    if (this.stopped) return false;
    const ours = answer.is === 'newer' && answer.theirs !== null && this.unanswered.has(inOrder(answer.theirs.content));
    this.unanswered.add(inOrder(sending));
    if (answer.is === 'kept') return this.keep(sending, answer.version);
    if (answer.is === 'newer') {
      if (ours && answer.theirs) {
        this.version = answer.theirs.version;
        return this.send();
      }
      this.stopped = true;
      this.tell(answer);
      return false;
    }
    this.tell({ is: 'unsaved', why: answer.is });
    this.sendIn(AGAIN_MS[Math.min(this.tries++, AGAIN_MS.length - 1)] ?? WAIT_MS);
    return false;
  }

  private keep(sent: DraftContent, version: number): boolean | Promise<boolean> {
    this.version = version;
    this.kept = sent.form;
    this.tries = 0;
    this.unanswered.clear();
    if (this.content.form !== sent.form) return this.send();
    this.tell({ is: 'saved', at: this.clock() });
    return true;
  }

  private sendIn(ms: number): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.flush(), ms);
  }
}

/** Content as text with its keys in order, so that the same content is the same text whoever wrote it. */
function inOrder(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    part && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([one], [other]) => one.localeCompare(other)))
      : part,
  );
}
