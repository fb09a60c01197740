'use client';

import { useActionState } from 'react';
import { HoldBoxes } from '@/app/_cautions/hold-boxes';
import type { ShownHold } from '@/app/_cautions/read-hand-over';
import { Field } from '@/app/_form/field';
import { RefusedAbove } from '@/app/_form/refused-above';
import { moveOrderAction, type OrderStepState } from './move-order';
import styles from './order-sheet.module.css';

type StepProps = {
  readonly patientId: string;
  readonly orderId: string;
  readonly revision: number;
  /** State of the visit whose figures the page shows. */
  readonly visitRevision: number;
  readonly submissionId: string;
  readonly today: string;
};

const NOTHING: OrderStepState = { errors: {}, typed: null };

/** The hidden boxes every step posts. */
function Known({ patientId, orderId, revision, visitRevision, submissionId, step }: StepProps & { step: string }) {
  return (
    <>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="orderId" value={orderId} />
      <input type="hidden" name="revision" value={revision} />
      <input type="hidden" name="visitRevision" value={visitRevision} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="step" value={step} />
    </>
  );
}

/** The id of a box by its name: those of a hold carry the step, as a page may show two. */
const idIn = (step: string) => (box: string) => (/^(?:prescriber|word|reason)\d|^unaskedWhy/.test(box) ? `${step}-${box}` : box);

/** Sends an order: answers what is asked, says on which day it leaves, and whether it was checked. */
export function SendOrder({
  questions,
  hold,
  checked,
  expected,
  ...props
}: StepProps & {
  readonly questions: readonly { key: string; message: string; source: string | null; asksCautions: boolean }[];
  readonly hold: ShownHold;
  readonly checked: boolean;
  readonly expected: string;
}) {
  const [state, send, busy] = useActionState(moveOrderAction, NOTHING);
  const typed = state.typed ?? { ordered: props.today, expected };
  return (
    <form className="panel form" action={send} noValidate aria-labelledby="send-head">
      <h2 id="send-head">Send it</h2>
      <RefusedAbove errors={state.errors} idOf={idIn('send')} />
      <Known {...props} step="send" />
      {questions.length > 0 && (
        <ul className={styles.questionList}>
          {questions.map((one, index) => (
            <li key={one.key}>
              <input type="hidden" name={`question${index}`} value={one.key} />
              <Field
                id={`answer${index}`}
                label={one.message}
                hint={
                  one.asksCautions ? (
                    <>
                      {one.source} <a href={`/patients/${props.patientId}/cautions`}>Open the cautions</a>
                    </>
                  ) : (
                    one.source
                  )
                }
                refusal={state.errors[`answer${index}`]}
              >
                {(wiring) => (
                  <input
                    {...wiring}
                    defaultValue={typed[`answer${index}`] ?? ''}
                    maxLength={300}
                    autoComplete="off"
                    placeholder="why it may leave all the same"
                  />
                )}
              </Field>
            </li>
          ))}
        </ul>
      )}
      <HoldBoxes patientId={props.patientId} hold={hold} typed={typed} errors={state.errors} form="send" />
      <div className="two-columns">
        <Field id="ordered" label="Sent on" refusal={state.errors.ordered}>
          {(wiring) => <input {...wiring} type="date" max={props.today} defaultValue={typed.ordered ?? ''} />}
        </Field>
        <Field
          id="expected"
          label="Expected on"
          hint="From the lead time; change it when the maker named a day."
          refusal={state.errors.expected}
        >
          {(wiring) => <input {...wiring} type="date" defaultValue={typed.expected ?? ''} />}
        </Field>
      </div>
      {!checked && (
        <Field id="unchecked" label="Check of the figures" refusal={state.errors.unchecked}>
          {(wiring) => (
            <label className="choice">
              <input {...wiring} type="checkbox" value="yes" defaultChecked={typed.unchecked === 'yes'} />
              It goes out unchecked, and the sheet says so
            </label>
          )}
        </Field>
      )}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Freeze the figures and mark as sent
        </button>
      </div>
    </form>
  );
}

/** A second person's check of the figures against the ladder. */
export function CheckOrder({ mayCheck, stale, ...props }: StepProps & { readonly mayCheck: boolean; readonly stale: boolean }) {
  const [state, send, busy] = useActionState(moveOrderAction, NOTHING);
  return (
    <form className="panel form" action={send} aria-labelledby="check-head">
      <h2 id="check-head">Second person</h2>
      <RefusedAbove errors={state.errors} />
      <Known {...props} step="check" />
      {stale && <p className="guess">The figures were checked, and the visit was corrected after that: they want checking again.</p>}
      {mayCheck ? (
        <>
          <p>Read each figure of the sheet against the visit. Look for the side, the unit, the zero and a skipped row.</p>
          <div className="actions">
            <button type="submit" className="button" aria-disabled={busy}>
              I have checked the figures
            </button>
          </div>
        </>
      ) : (
        <p className="secondary">You wrote this order as it stands. Someone else who signs in can check it here.</p>
      )}
    </form>
  );
}

/** All awaited pieces of the order came on one day. */
export function DeliverOrder({ waiting, hold, ...props }: StepProps & { readonly waiting: readonly string[]; readonly hold: ShownHold }) {
  const [state, send, busy] = useActionState(moveOrderAction, NOTHING);
  return (
    <form className="panel form" action={send} noValidate aria-labelledby="deliver-head">
      <h2 id="deliver-head">{waiting.length === 1 ? `Piece ${waiting[0]} is awaited` : `Pieces ${waiting.join(' and ')} are awaited`}</h2>
      <RefusedAbove errors={state.errors} idOf={idIn('deliver')} />
      <Known {...props} step="deliver" />
      <Field id="day" label="Delivered on" hint="If only one came, note it on that piece’s page." refusal={state.errors.day}>
        {(wiring) => <input {...wiring} type="date" max={props.today} defaultValue={state.typed?.day ?? props.today} />}
      </Field>
      <HoldBoxes patientId={props.patientId} hold={hold} typed={state.typed ?? {}} errors={state.errors} form="deliver" />
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {waiting.length === 1 ? 'It came' : 'All came'}
        </button>
      </div>
    </form>
  );
}

/** Calls an order off, with the reason; pieces that have not come go with it. */
export function CancelOrder(props: StepProps) {
  const [state, send, busy] = useActionState(moveOrderAction, NOTHING);
  return (
    <details className="as-table" open={Object.keys(state.errors).length > 0}>
      <summary>Cancel this order</summary>
      <form className="form" action={send} noValidate>
        <RefusedAbove errors={state.errors} />
        <Known {...props} step="cancel" />
        <Field id="words" label="Why" refusal={state.errors.words}>
          {(wiring) => <input {...wiring} defaultValue={state.typed?.words ?? ''} maxLength={200} autoComplete="off" />}
        </Field>
        <div className="actions">
          <button type="submit" className="button" aria-disabled={busy}>
            Cancel the order
          </button>
        </div>
      </form>
    </details>
  );
}
