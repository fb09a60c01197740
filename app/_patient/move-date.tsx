'use client';

import { useActionState } from 'react';
import { type MoveState, moveDateAction } from '@/app/_patient/actions';
import scheduleStyles from './schedule.module.css';

type Props = {
  readonly patientId: string;
  readonly dateKey: string;
  /** The day that the record and the clinic's intervals give, and the one that counts now. */
  readonly computed: string;
  readonly day: string;
  readonly today: string;
  readonly back: string;
};

/** Another day for one date of the schedule, with the reason. Works without script as a plain form. */
export function MoveDate({ patientId, dateKey, computed, day, today, back }: Props) {
  const [state, move, pending] = useActionState<MoveState, FormData>(moveDateAction, null);
  return (
    <form action={move} className={`answer-form ${scheduleStyles.moveForm}`}>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="key" value={dateKey} />
      <input type="hidden" name="computed" value={computed} />
      <input type="hidden" name="back" value={back} />
      <label>
        Move to
        <input type="date" name="day" min={today} defaultValue={state?.day ?? day} required />
      </label>
      <label>
        Why
        <input type="text" name="reason" maxLength={200} defaultValue={state?.reason ?? ''} required />
      </label>
      <button className="button" type="submit" disabled={pending}>
        Move it
      </button>
      <p className="refusal" role="status">
        {state?.refusal ?? ''}
      </p>
    </form>
  );
}
