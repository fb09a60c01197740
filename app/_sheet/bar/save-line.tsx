import type { DraftState } from '@/app/_draft/draft-keeper';
import { counted } from '@/lib/entry/act-in-words';
import { capitalized } from '@/lib/units/capitalized';
import styles from './sheet-bar.module.css';

type LineProps = {
  readonly state: DraftState;
  readonly waiting: number;
  readonly isOnDevice: boolean;
  readonly broughtBack: number;
  readonly counts: string;
  readonly short: string;
};

/** How the draft stands and what is kept where, in a mark and in words, and how far the sheet is filled. */
export function SaveLine({ state, waiting, isOnDevice, broughtBack, counts, short }: LineProps) {
  return (
    <div className={styles.saveLine}>
      <p className={styles.saveState} data-save-state={state.kind} role="status">
        <Mark kind={state.kind} />
        <span>
          {wordsFor(state, waiting, isOnDevice)}
          {broughtBack > 0 && ` ${capitalized(counted(broughtBack, 'figure'))} brought back from this device.`}
        </span>
      </p>
      <p className={styles.counts}>
        <span className={styles.long}>{counts}</span>
        <span className={styles.short}>{short}</span>
      </p>
    </div>
  );
}

function wordsFor(state: DraftState, waiting: number, isOnDevice: boolean): string {
  switch (state.kind) {
    case 'nothing':
      return 'Nothing to save yet';
    case 'saved':
      return `Saved ${state.at}, on the server`;
    case 'saving':
      return 'Saving…';
    case 'newer':
      return 'Not on the server: two drafts differ. Choose one above.';
    case 'unsaved': {
      const figures = waiting === 0 ? 'What was typed last is' : waiting === 1 ? '1 figure' : `${waiting} figures`;
      const where = isOnDevice ? `${figures} kept on this device.` : `${figures} in this window alone: leave it open.`;
      if (state.why === 'signed-out') return `Not on the server: you are signed out. ${where}`;
      return `Not on the server yet. ${where} Trying again.`;
    }
  }
}

function Mark({ kind }: { kind: DraftState['kind'] }) {
  return (
    <svg className={styles.saveMark} viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      {kind === 'saved' && (
        <>
          <circle className={styles.disc} cx="8" cy="8" r="7.5" />
          <path className={styles.tickLine} d="m4.5 8.3 2.4 2.4 4.6-5" />
        </>
      )}
      {(kind === 'saving' || kind === 'nothing') && <circle cx="8" cy="8" r="6.5" />}
      {(kind === 'unsaved' || kind === 'newer') && <path className={styles.triangle} d="M8 2 14.5 14h-13Z" />}
    </svg>
  );
}
