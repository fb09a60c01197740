'use client';

import { useActionState } from 'react';
import { type OpenedFeed, openFeedAction } from './actions';

/** Opens a calendar address and shows it once. */
export function OpenFeed({ address }: { readonly address: string }) {
  const [opened, open, busy] = useActionState<OpenedFeed, FormData>(openFeedAction, null);
  return (
    <form className="form" action={open}>
      {opened && (
        <div className="field" role="status">
          <label htmlFor="feed-address">Address for the calendar program</label>
          <span className="hint">
            Copy it now: it is shown this once. Whoever has it sees the clinic’s dates, without names, until it is withdrawn.
          </span>
          <input id="feed-address" readOnly value={`${address}${opened.path}`} onFocus={(event) => event.target.select()} />
        </div>
      )}
      <div className="actions">
        <button type="submit" className="button" aria-disabled={busy}>
          Open a calendar address
        </button>
      </div>
    </form>
  );
}
