import type { InputHTMLAttributes, ReactNode } from 'react';
import { groupedBy } from '@/lib/record/grouped-by';
import { Field } from './field';

/** One choice of a select: what is posted, what is read, and under which heading it stands; those of one heading follow each other. */
export type BoxChoice = { readonly key: string; readonly words: string; readonly lang?: string; readonly group?: string };

/** The boxes of a form that keeps what was typed: each with its label, hint, and the reason it was refused. */
export type TypedBoxes = {
  readonly text: (box: string, label: string, hint?: string, more?: InputHTMLAttributes<HTMLInputElement>) => ReactNode;
  readonly words: (box: string, label: string, hint?: string, rows?: number) => ReactNode;
  /** `ask` stands first and posts nothing; null for a select that always has an answer. */
  readonly choice: (box: string, label: string, choices: readonly BoxChoice[], ask: string | null, hint?: string) => ReactNode;
  readonly tick: (box: string, label: string, words: string) => ReactNode;
};

/**
 * Boxes over what was typed and what was refused, by name. Ids are the names, or made from them where a page has several forms.
 *
 * A select is told its choice again by its key: React forgets it after a refused action.
 */
export function typedBoxes(
  typed: Readonly<Record<string, string>>,
  errors: Readonly<Record<string, string>>,
  idOf: (box: string) => string = (box) => box,
): TypedBoxes {
  return {
    text: (box, label, hint, more) => (
      <Field id={idOf(box)} label={label} hint={hint} refusal={errors[box]}>
        {(wiring) => <input {...wiring} name={box} defaultValue={typed[box] ?? ''} autoComplete="off" maxLength={400} {...more} />}
      </Field>
    ),
    words: (box, label, hint, rows = 3) => (
      <Field id={idOf(box)} label={label} hint={hint} refusal={errors[box]}>
        {(wiring) => <textarea {...wiring} name={box} rows={rows} defaultValue={typed[box] ?? ''} />}
      </Field>
    ),
    choice: (box, label, choices, ask, hint) => (
      <Field id={idOf(box)} label={label} hint={hint} refusal={errors[box]}>
        {(wiring) => (
          <select {...wiring} name={box} key={typed[box]} defaultValue={typed[box] ?? ''}>
            {ask !== null && <option value="">{ask}</option>}
            {[...groupedBy(choices, ({ group = '' }) => group)].map(([group, ofGroup]) =>
              group === '' ? (
                ofGroup.map(optionOf)
              ) : (
                <optgroup key={group} label={group}>
                  {ofGroup.map(optionOf)}
                </optgroup>
              ),
            )}
          </select>
        )}
      </Field>
    ),
    tick: (box, label, words) => (
      <Field id={idOf(box)} label={label} refusal={errors[box]}>
        {(wiring) => (
          <label className="choice">
            <input {...wiring} name={box} type="checkbox" value="yes" defaultChecked={typed[box] === 'yes'} />
            {words}
          </label>
        )}
      </Field>
    ),
  };
}

function optionOf({ key, words, lang }: BoxChoice): ReactNode {
  return (
    <option key={key} value={key} lang={lang}>
      {words}
    </option>
  );
}

/** Choices whose words are what is posted. */
export function asChoices(words: readonly string[]): BoxChoice[] {
  return words.map((one) => ({ key: one, words: one }));
}
