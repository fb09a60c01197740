'use client';

import clsx from 'clsx';
import { type ReactNode, useActionState } from 'react';
import { HoldBoxes } from '@/app/_cautions/hold-boxes';
import type { ShownHold } from '@/app/_cautions/read-hand-over';
import { RefusedAbove } from '@/app/_form/refused-above';
import { type TypedBoxes, typedBoxes } from '@/app/_form/typed-boxes';
import type { PieceStep } from '@/lib/forms/read-piece-step';
import { type PieceStepState, stepPieceAction } from './step-piece';

/** The piece that takes the step, as it stood when the page was made. */
export type StepProps = {
  readonly patientId: string;
  readonly pieceId: string;
  readonly revision: number;
  readonly submissionId: string;
  readonly today: string;
};

/** Boxes of a step: as of any form, and the day of the step, not after today. */
export type Boxes = TypedBoxes & { readonly day: (label: string, hint?: string) => ReactNode };

type StepFormProps = StepProps & {
  readonly step: PieceStep;
  readonly title: string;
  readonly button: string;
  readonly main?: boolean;
  /** What stands in the boxes at first, beside today in the box of the day. */
  readonly start?: Readonly<Record<string, string>>;
  /** What holds the hand-over that this step is. */
  readonly hold?: ShownHold;
  readonly children: (boxes: Boxes) => ReactNode;
};

/** The form of one step of a piece: its boxes come from the step, what was refused stands beside them. */
export function StepForm({ step, title, button, main = false, start = {}, hold, children, ...props }: StepFormProps) {
  const [state, send, busy] = useActionState<PieceStepState, FormData>(stepPieceAction, { errors: {}, typed: null });
  const typed = state.typed ?? { day: props.today, ...start };
  const idOf = (box: string) => `${step}-${box.replaceAll(/[^a-z0-9]+/gi, '-')}`;
  const plain = typedBoxes(typed, state.errors, idOf);
  const boxes: Boxes = { ...plain, day: (label, hint) => plain.text('day', label, hint, { type: 'date', max: props.today }) };
  return (
    <form className="panel form" action={send} noValidate aria-label={title}>
      <h2>{title}</h2>
      <RefusedAbove errors={state.errors} idOf={idOf} />
      {Object.entries({ ...props, step }).map(
        ([name, value]) => name !== 'today' && <input key={name} type="hidden" name={name} value={value} />,
      )}
      {children(boxes)}
      {hold && <HoldBoxes patientId={props.patientId} hold={hold} typed={typed} errors={state.errors} form={step} />}
      <div className="actions">
        <button type="submit" className={clsx('button', main && 'main')} aria-disabled={busy}>
          {button}
        </button>
      </div>
    </form>
  );
}
