'use client';

import { useActionState } from 'react';
import { asChoices, typedBoxes } from '@/app/_form/typed-boxes';
import { inviteAction, type PeopleState } from './actions';
import { HandOver } from './hand-over';
import { ROLE_WORDS } from './role-words';

/** Name, e-mail and role of somebody new; then the link for them. */
export function InviteForm() {
  const [state, invite, busy] = useActionState<PeopleState, FormData>(inviteAction, { errors: {}, typed: {} });
  const boxes = typedBoxes(state.typed, state.errors, (box) => `invite-${box}`);
  return (
    <form className="panel form" action={invite} noValidate>
      <HandOver state={state} />
      <div className="two-columns">
        {boxes.text('name', 'Name')}
        {boxes.text('email', 'E-mail', undefined, { type: 'email' })}
        {boxes.choice('role', 'Role', asChoices(ROLE_WORDS), 'Choose')}
      </div>
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Invite
        </button>
      </div>
    </form>
  );
}
