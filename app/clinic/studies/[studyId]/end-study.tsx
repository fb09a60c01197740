'use client';

import { useActionState } from 'react';
import { NotSaved } from '@/app/_form/not-saved';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { LONGEST_REASON } from '@/lib/forms/read-reason';
import { endStudyAction, type StudyFormState } from '../actions';

/** How a lead ends a study that will not be finished: with the reason. */
export function EndStudy({ studyId, submissionId }: { readonly studyId: string; readonly submissionId: string }) {
  const [{ errors, typed }, send, busy] = useActionState<StudyFormState, FormData>(endStudyAction, { errors: {}, typed: null });
  const { text } = typedBoxes(typed ?? {}, errors);
  return (
    <details className="panel" open={typed !== null}>
      <summary>End it without a result</summary>
      <form className="form" action={send} noValidate aria-label="End the study">
        <NotSaved errors={errors} />
        <input type="hidden" name="studyId" value={studyId} />
        <input type="hidden" name="submissionId" value={submissionId} />
        {text('reason', 'Why it will not be finished', 'Nobody tapes in it after that; it cannot be begun again.', {
          maxLength: LONGEST_REASON.other,
        })}
        <div className="actions">
          <button type="submit" className="button" aria-disabled={busy}>
            End the study
          </button>
        </div>
      </form>
    </details>
  );
}
