import { useEffect, useRef } from 'react';
import { DifferenceTable } from '@/app/_draft/difference-table';
import { giveUpDraft } from '@/app/_draft/draft-on-server';
import type { AnswerChange } from '@/app/_sheet/answer-changes';
import type { SheetData } from '@/lib/entry/entry-data';
import type { FigureDifference } from '@/lib/entry/figure-differences';
import type { TheirVersion } from './actions';
import styles from './correct.module.css';

type ChangesProps = {
  readonly figures: readonly FigureDifference[];
  readonly answers: readonly AnswerChange[];
  readonly reason: string;
  readonly refusal: string;
  readonly busy: boolean;
  readonly onReason: (reason: string) => void;
  readonly onSave: () => void;
};

/** Before a correction is saved: the figures it changes, what that does to the answers, and why. */
export function WhatChanges({ figures, answers, reason, refusal, busy, onReason, onSave }: ChangesProps) {
  const box = useRef<HTMLElement>(null);
  useEffect(() => box.current?.focus(), []);
  const differ = answers.filter((answer) => answer.before !== answer.after);
  return (
    <section className={`panel ${styles.whatChanges}`} aria-labelledby="changes-head" ref={box} tabIndex={-1}>
      <h2 id="changes-head">What this correction changes</h2>
      {figures.length === 0 ? (
        <p>No figure differs from what is on record.</p>
      ) : (
        <DifferenceTable caption="Figures" one="on record" other="corrected" differences={figures} />
      )}
      {differ.length === 0 ? (
        <p>No volume and no verdict changes.</p>
      ) : (
        <DifferenceTable
          caption="Answers"
          one="before"
          other="after"
          differences={differ.map(({ what, before, after }) => ({ where: what, one: before, other: after }))}
        />
      )}
      <div className="field">
        <label htmlFor="correction-reason">Why it is corrected</label>
        <span className="hint">It stays with the visit, beside your name.</span>
        <input
          id="correction-reason"
          type="text"
          maxLength={500}
          value={reason}
          aria-invalid={refusal !== ''}
          aria-describedby="correction-refusal"
          onChange={({ target }) => onReason(target.value)}
        />
        <span className="refusal" id="correction-refusal" role="status">
          {refusal}
        </span>
      </div>
      <div className="actions">
        <button
          className="button main"
          type="button"
          aria-disabled={busy || figures.length === 0}
          onClick={() => figures.length > 0 && onSave()}
        >
          {busy ? 'Saving…' : 'Save the correction'}
        </button>
      </div>
    </section>
  );
}

type BothProps = {
  readonly theirs: TheirVersion;
  readonly busy: boolean;
  readonly onMine: () => void;
  readonly visitAddress: string;
  readonly data: SheetData;
};

/** Two people corrected one visit: both versions side by side; the second chooses, and nothing is overwritten. */
export function BothVersions({ theirs, busy, onMine, visitAddress, data }: BothProps) {
  const box = useRef<HTMLElement>(null);
  useEffect(() => box.current?.focus(), []);
  return (
    <section className={`panel ${styles.whatChanges}`} role="alert" ref={box} tabIndex={-1}>
      <p>
        <b>
          {theirs.by} saved this visit at {theirs.at}.
        </b>{' '}
        Yours is kept too. Compare them and choose.
      </p>
      <DifferenceTable caption="Where the two differ" one={theirs.by} other="yours" differences={theirs.differences} />
      <div className="actions">
        <button
          className="button"
          type="button"
          onClick={async () => {
            await giveUpDraft(data);
            window.location.assign(visitAddress);
          }}
        >
          Leave {theirs.by}’s version
        </button>
        <button className="button" type="button" aria-disabled={busy} onClick={onMine}>
          Save mine after it
        </button>
      </div>
    </section>
  );
}
