'use client';

import { useActionState } from 'react';
import { type LimitsState, saveLimitsAction } from './actions';
import styles from './limits.module.css';

/** One limit of the form: value now, default, unit, and where the default comes from. */
export type LimitLine = {
  readonly name: string;
  readonly does: string;
  readonly now: string;
  readonly usual: string;
  readonly unit: string;
  readonly kind: string;
  readonly source: string;
  /** What stands while the box is empty, where that is not the default, and why. */
  readonly stands?: string;
  readonly because?: string;
};

type Props = {
  readonly lines: readonly LimitLine[];
  readonly review: readonly { readonly words: string; readonly now: number; readonly usual: number; readonly source: string }[];
  readonly growthReference: string;
  readonly mayChange: boolean;
};

/** Every limit with its value, default, kind and source. A lead types over a value; an empty box goes back to what stands without it. */
export function LimitsForm({ lines, review, growthReference, mayChange }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<LimitsState, FormData>(saveLimitsAction, { errors: {}, typed: null });
  const refusal = (name: string): string | undefined => (errors as Record<string, string | undefined>)[name];
  return (
    <form action={send} noValidate>
      <div className="table-frame">
        <table className={styles.limitsTable}>
          <thead>
            <tr>
              <th scope="col">Limit</th>
              <th scope="col">This clinic</th>
              <th scope="col">Default</th>
              <th scope="col">Kind and source</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <tr key={line.name}>
                <th scope="row">
                  <label htmlFor={line.name}>{line.does}</label>
                </th>
                <td>
                  <span className={styles.limitBox}>
                    <input
                      id={line.name}
                      name={line.name}
                      inputMode="decimal"
                      defaultValue={typed?.[line.name] ?? line.now}
                      placeholder={line.stands}
                      readOnly={!mayChange}
                      aria-invalid={Boolean(refusal(line.name))}
                      aria-describedby={`${line.name}-because ${line.name}-refusal`}
                    />
                    {line.unit}
                  </span>
                  <span className="second-line" id={`${line.name}-because`}>
                    {line.because}
                  </span>
                  <span className="refusal" id={`${line.name}-refusal`}>
                    {refusal(line.name)}
                  </span>
                </td>
                <td>{`${line.usual} ${line.unit}`}</td>
                <td>
                  <strong>{line.kind}</strong>
                  <span className="second-line">{line.source}</span>
                </td>
              </tr>
            ))}
            {review.map((row, index) => (
              <tr key={row.words}>
                <th scope="row">
                  <label htmlFor={`review-${index}`}>{row.words}</label>
                </th>
                <td>
                  <span className={styles.limitBox}>
                    <input
                      id={`review-${index}`}
                      name={`review-${index}`}
                      inputMode="numeric"
                      defaultValue={typed?.[`review-${index}`] ?? String(row.now)}
                      readOnly={!mayChange}
                    />
                    days
                  </span>
                  <span className="refusal">{index === 0 ? refusal('reviewDays') : ''}</span>
                </td>
                <td>{`${row.usual} days`}</td>
                <td>
                  <strong>clinic default</strong>
                  <span className="second-line">{row.source}</span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <fieldset className={`field ${styles.limitsGrowth}`}>
        <legend>Growth tables</legend>
        <span className="choices">
          {[
            ['cdc-2000', 'CDC 2000, WHO 2006 under two years'],
            ['who', 'WHO 2006 and 2007'],
          ].map(([value, words]) => (
            <label className="choice" key={value}>
              <input
                type="radio"
                name="growthReference"
                value={value}
                defaultChecked={(typed?.growthReference ?? growthReference) === value}
                disabled={!mayChange}
              />
              {words}
            </label>
          ))}
        </span>
      </fieldset>
      {mayChange && (
        <>
          <RefusedLimits refused={lines.filter(({ name }) => refusal(name))} other={Object.keys(errors).length > 0} />
          <div className={styles.limitsSave}>
            <label className="field">
              Why they are changed
              <input
                type="text"
                name="reason"
                maxLength={200}
                defaultValue={typed?.reason}
                aria-invalid={Boolean(errors.reason)}
                aria-describedby="reason-refusal"
              />
              <span className="refusal" id="reason-refusal">
                {errors.reason}
              </span>
            </label>
            <button type="submit" className="button main" aria-disabled={busy}>
              Keep these limits
            </button>
          </div>
        </>
      )}
    </form>
  );
}

/** What was refused, said beside the button: the boxes may be screens away, so each is a link. */
function RefusedLimits({ refused, other }: { readonly refused: readonly LimitLine[]; readonly other: boolean }) {
  if (!other) return null;
  return (
    <div className="refused-box" role="alert">
      <b>Nothing is saved yet.</b> What you typed is still there. {refused.length > 0 ? 'Look at:' : 'Look at the boxes marked here.'}
      {refused.length > 0 && (
        <ul>
          {refused.map(({ name, does }) => (
            <li key={name}>
              <a href={`#${name}`}>{does}</a>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
