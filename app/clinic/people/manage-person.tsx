'use client';

import { useActionState } from 'react';
import { asChoices, typedBoxes } from '@/app/_form/typed-boxes';
import type { ListedPerson } from '@/db/people/people';
import { changeRoleAction, disableAction, dropFactorAction, enableAction, makeLinkAction, type PeopleState } from './actions';
import { HandOver } from './hand-over';
import styles from './people.module.css';
import { ROLE_WORDS } from './role-words';

const ACTIONS = {
  role: changeRoleAction,
  disable: disableAction,
  enable: enableAction,
  link: makeLinkAction,
  'drop-factor': dropFactorAction,
};
type Wish = keyof typeof ACTIONS;

/** What a lead may do for one person; each act says what came of it. */
export function ManagePerson({ person, isOneself }: { readonly person: ListedPerson; readonly isOneself: boolean }) {
  const [state, act, busy] = useActionState<PeopleState, FormData>(
    (before, form) => ACTIONS[(form.get('wish') as Wish) ?? 'link'](before, form),
    { errors: {}, typed: {} },
  );
  const boxes = typedBoxes({ role: person.role }, state.errors, (box) => `change-${box}`);
  const button = (wish: Wish, words: string) => (
    <button type="submit" className="button" name="wish" value={wish} aria-disabled={busy}>
      {words}
    </button>
  );
  return (
    <section className={`panel ${styles.managePerson}`} aria-labelledby="manage-head">
      <h2 id="manage-head">{person.name}</h2>
      <form className="form" action={act}>
        <HandOver state={state} />
        <input type="hidden" name="personId" value={person.id} />
        <div className="two-columns">
          {boxes.choice('role', 'Role', asChoices(ROLE_WORDS), null)}
          <div className="actions">{button('role', 'Change the role')}</div>
        </div>
        <p className="hint">
          Disabling signs a person out at once and keeps them out. What they wrote stays, and you can enable them again.
        </p>
        <div className="actions">
          {person.state !== 'disabled' &&
            button('link', person.state === 'invited' ? 'Make a new link to join' : 'Make a link to a new password')}
          {person.hasSecondFactor && button('drop-factor', 'Turn off their lost second factor')}
          {person.state === 'disabled' && button('enable', 'Enable')}
          {person.state !== 'disabled' && !isOneself && button('disable', 'Disable')}
        </div>
      </form>
    </section>
  );
}
