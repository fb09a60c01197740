'use client';

import { useActionState } from 'react';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { STUDY_BOUNDS, STUDY_KINDS } from '@/lib/study/study-plan';
import type { LengthUnit } from '@/lib/units/length';
import { nameOf } from '@/lib/units/read-length';
import { beginStudyAction, type StudyFormState } from '../actions';

type Props = {
  readonly people: readonly { readonly id: string; readonly name: string }[];
  readonly unit: LengthUnit;
  readonly submissionId: string;
};

const { people: PEOPLE, repeats: REPEATS, rungs: RUNGS } = STUDY_BOUNDS;

/** The form of a plan; the order is drawn when it is sent. */
export function StudyForm({ people, unit, submissionId }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<StudyFormState, FormData>(beginStudyAction, { errors: {}, typed: null });
  const start = { repeats: '2', rungs: '8', first: unit === 'in' ? '4' : '10', step: unit === 'in' ? '1 1/2' : '4', 'left-leg': 'yes' };
  const { text, tick, words } = typedBoxes(typed ?? start, errors);
  return (
    <form className="panel form" action={send} noValidate aria-label="The study" key={typed ? 'typed' : 'start'}>
      <input type="hidden" name="submissionId" value={submissionId} />
      <p className="refusal" role="alert">
        {Object.keys(errors).length > 0 ? 'Nothing was begun yet. Look at the marked boxes.' : ''}
      </p>
      {words('people', 'Who is taped', `Codes, no names: P1, P2, P3 … ${PEOPLE.most} at most.`, 2)}
      <fieldset className="field" aria-describedby="limbs-refusal">
        <legend>Limbs of each of them</legend>
        {Object.entries(STUDY_KINDS).map(([name, kind]) => tick(name, '', kind.words))}
        <span className="refusal" id="limbs-refusal">
          {errors.limbs}
        </span>
      </fieldset>
      <fieldset className="field" aria-describedby="measurers-refusal">
        <legend>Measurers: each tapes every limb</legend>
        {people.map(({ id, name }) => tick(`measurer-${id}`, '', name))}
        <span className="refusal" id="measurers-refusal">
          {errors.measurers}
        </span>
      </fieldset>
      {text('repeats', 'Tapings of each limb by each measurer', `${REPEATS.least} to ${REPEATS.most}.`, {
        inputMode: 'numeric',
        maxLength: 2,
      })}
      {text('first', `Lowest girth, ${nameOf(unit)} above the zero`, 'The zero is the floor at the foot, or the wrist crease.', {
        maxLength: 60,
      })}
      {text('step', `From one girth to the next, ${nameOf(unit)}`, undefined, { maxLength: 60 })}
      {text('rungs', 'Girths on a limb', `${RUNGS.least} to ${RUNGS.most}.`, { inputMode: 'numeric', maxLength: 2 })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Begin
        </button>
      </div>
    </form>
  );
}
