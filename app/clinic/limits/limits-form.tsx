'use client';

import { type ReactNode, useActionState, useState } from 'react';
import { ColumnHeads } from '@/app/_shell/column-heads';
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

type Group = { readonly name: string; readonly lines: readonly LimitLine[] };

type Props = {
  readonly groups: readonly Group[];
  readonly growthReference: string;
  readonly mayChange: boolean;
  /** How many states there were when the page was opened: a form over another one is refused. */
  readonly number: number;
};

/**
 * Every limit by subject, with its value, default, kind and source. A lead types over a value; an empty box goes back to what stands
 * without it. A search hides rows and posts them all the same.
 */
export function LimitsForm({ groups, growthReference, mayChange, number }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<LimitsState, FormData>(saveLimitsAction, { errors: {}, typed: null });
  const [sought, setSought] = useState('');
  const [changed, setChanged] = useState<readonly string[]>([]);
  const refusal = (name: string): string | undefined =>
    (errors as Record<string, string | undefined>)[name === 'review-0' ? 'reviewDays' : name];
  const shown = groups.map((group, index) => ({
    ...group,
    id: `limits-${index}`,
    found: group.lines.filter((line) => isSought(line, sought)),
  }));
  const all = groups.flatMap(({ lines }) => lines);
  return (
    <form action={send} noValidate onInput={({ currentTarget }) => setChanged(changedBoxes(currentTarget))} onReset={() => setChanged([])}>
      <input type="hidden" name="number" value={number} />
      <div className={styles.limitsBody}>
        <nav className={styles.limitGroups} aria-label="Subjects of limits">
          <label className={styles.limitSearch}>
            Find a limit
            <input
              type="search"
              value={sought}
              autoComplete="off"
              maxLength={60}
              onChange={({ target }) => setSought(target.value)}
              onKeyDown={(event) => {
                if (event.key === 'Enter') event.preventDefault();
                if (event.key === 'Escape') setSought('');
              }}
            />
          </label>
          <p className="secondary" role="status">
            {sought.trim() === ''
              ? `${all.length} limits`
              : `${shown.reduce((sum, { found }) => sum + found.length, 0)} of ${all.length} limits`}
          </p>
          <ul>
            {shown.map(({ id, name, lines, found }) => (
              <li key={id} data-none={found.length === 0 || undefined}>
                <a href={`#${id}`}>
                  {name} <span>{sought.trim() === '' ? lines.length : `${found.length} of ${lines.length}`}</span>
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <div className="table-frame">
          <table className={styles.limitsTable}>
            <thead>
              <tr>
                <ColumnHeads of={['Limit, kind and source', 'This clinic', 'Default']} />
              </tr>
            </thead>
            {shown.map(({ id, name, lines, found }) => (
              <tbody key={id} id={id} hidden={found.length === 0}>
                <tr className={styles.limitsHead}>
                  <th scope="rowgroup" colSpan={3}>
                    {name}
                  </th>
                </tr>
                {lines.map((line) => (
                  <LimitRow
                    key={line.name}
                    line={line}
                    now={typed?.[line.name] ?? line.now}
                    sought={sought}
                    isHidden={!found.includes(line)}
                    isChanged={changed.includes(line.name)}
                    refused={refusal(line.name)}
                    mayChange={mayChange}
                  />
                ))}
              </tbody>
            ))}
          </table>
        </div>
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
          <RefusedLimits refused={all.filter(({ name }) => refusal(name))} other={Object.keys(errors).length > 0} />
          <div className={styles.limitsSave}>
            <p role="status">
              {changed.length === 0
                ? 'Nothing changed yet.'
                : `${changed.length === 1 ? 'One change' : `${changed.length} changes`}, not kept yet.`}
            </p>
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
            <button type="reset" className="button" aria-disabled={changed.length === 0}>
              Undo
            </button>
            <button type="submit" className="button main" aria-disabled={busy}>
              Keep these limits
            </button>
          </div>
        </>
      )}
    </form>
  );
}

type RowProps = {
  readonly line: LimitLine;
  readonly now: string;
  readonly sought: string;
  readonly isHidden: boolean;
  readonly isChanged: boolean;
  readonly refused: string | undefined;
  readonly mayChange: boolean;
};

function LimitRow({ line, now, sought, isHidden, isChanged, refused, mayChange }: RowProps) {
  return (
    <tr hidden={isHidden && !refused && !isChanged} data-changed={isChanged || undefined}>
      <th scope="row">
        <label htmlFor={line.name}>{marked(line.does, sought)}</label>
        <span className="second-line">
          <b>{line.kind}</b> · {line.source}
        </span>
      </th>
      <td>
        <span className={styles.limitBox}>
          <input
            id={line.name}
            name={line.name}
            inputMode="decimal"
            defaultValue={now}
            placeholder={line.stands}
            readOnly={!mayChange}
            aria-invalid={Boolean(refused)}
            aria-describedby={`${line.name}-because ${line.name}-refusal`}
          />
          {line.unit}
        </span>
        <span className="second-line" id={`${line.name}-because`}>
          {isChanged ? `was ${line.now || 'empty'}` : line.because}
        </span>
        <span className="refusal" id={`${line.name}-refusal`}>
          {refused}
        </span>
      </td>
      <td>{`${line.usual} ${line.unit}`}</td>
    </tr>
  );
}

function isSought({ does, source }: LimitLine, sought: string): boolean {
  const words = sought.trim().toLowerCase();
  return `${does} ${source}`.toLowerCase().includes(words);
}

/** The words sought stand marked in a limit's name. */
function marked(does: string, sought: string): ReactNode {
  const words = sought.trim().toLowerCase();
  const at = words === '' ? -1 : does.toLowerCase().indexOf(words);
  if (at < 0) return does;
  return (
    <>
      {does.slice(0, at)}
      <mark>{does.slice(at, at + words.length)}</mark>
      {does.slice(at + words.length)}
    </>
  );
}

/** Names of the boxes that hold something else than they did. */
function changedBoxes(form: HTMLFormElement): string[] {
  return [...form.querySelectorAll('tbody input')].flatMap((box) =>
    box instanceof HTMLInputElement && box.value !== box.defaultValue ? [box.name] : [],
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
