import type { PeopleState } from './actions';

/** What came of it; and a link to hand over, shown once. */
export function HandOver({ state }: { readonly state: PeopleState }) {
  return (
    <>
      <p className="refusal" role="alert">
        {state.errors.form}
      </p>
      {state.said && (
        <div className="field" role="status">
          {state.said}
          {state.link && (
            <>
              <label htmlFor="hand-over">Link to hand over</label>
              <span className="hint">Copy it now: it is shown this once, and opens once. Whoever has it chooses the password.</span>
              <input id="hand-over" readOnly value={state.link} onFocus={(event) => event.target.select()} />
            </>
          )}
        </div>
      )}
    </>
  );
}
