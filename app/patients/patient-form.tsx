'use client';

import { useActionState } from 'react';
import { Field, FieldGroup } from '@/app/_form/field';
import { PART_PLACES, partOfSideInWords } from '@/lib/parts/measure';
import { DIAGNOSIS_GROUPS } from '@/lib/record/diagnosis-groups';
import { LANGUAGE_NAMES } from '@/lib/summary/family/language-names';
import { capitalized } from '@/lib/units/capitalized';
import type { PatientErrors, TypedPatient } from './read-patient';
import { Refusals } from './refusals';

const LIMBS = [
  ['right-leg', 'Right leg'],
  ['left-leg', 'Left leg'],
  ['right-arm', 'Right arm'],
  ['left-arm', 'Left arm'],
] as const;

const PARTS = PART_PLACES.map(({ part, side }) => partOfSideInWords(part, side));

const SEXES = [
  ['F', 'Girls’ and women’s'],
  ['M', 'Boys’ and men’s'],
  ['X', 'No table'],
] as const;

/** A refused form: why, beside each field, and everything as it was typed. */
export type PatientFormState = {
  readonly errors: PatientErrors;
  readonly typed: TypedPatient | null;
};

type FormProps = {
  readonly save: (before: PatientFormState, form: FormData) => Promise<PatientFormState>;
  readonly submissionId: string;
  readonly today: string;
  /** What the boxes start with: a patient's details as they stand, and which state of them that is. */
  readonly start?: { readonly patientId: string; readonly revision: number; readonly typed: TypedPatient };
  readonly saveWords: string;
  /** A second way to save, posted as `then`: where it leads after saving. */
  readonly saveThen?: { readonly value: string; readonly words: string };
  readonly leave: { readonly to: string; readonly words: string };
};

/** The form of a patient's details, new or corrected. It posts without JavaScript too, and a refused one keeps every word typed. */
export function PatientForm({ save, submissionId, today, start, saveWords, saveThen, leave }: FormProps) {
  const [state, send, busy] = useActionState(save, { errors: {}, typed: null });
  const { errors } = state;
  const typed = state.typed ?? start?.typed;
  return (
    <form className="panel form" action={send} noValidate>
      <Refusals errors={errors} />
      <input type="hidden" name="submissionId" value={submissionId} />
      {start && <input type="hidden" name="patientId" value={start.patientId} />}
      {start && <input type="hidden" name="revision" value={start.revision} />}
      <div className="two-columns">
        <Field id="reference" label="Reference" hint="What your clinic files this person under." refusal={errors.reference}>
          {(wiring) => <input {...wiring} defaultValue={typed?.reference} autoComplete="off" autoCapitalize="characters" required />}
        </Field>
        <Field id="name" label="Name" hint="Empty if names are kept elsewhere." refusal={errors.name}>
          {(wiring) => <input {...wiring} defaultValue={typed?.name} autoComplete="off" />}
        </Field>
        <Field id="born" label="Date of birth" refusal={errors.born}>
          {(wiring) => <input {...wiring} type="date" max={today} defaultValue={typed?.born} required />}
        </Field>
        <Field id="diagnosisGroup" label="Diagnosis group" refusal={errors.diagnosisGroup}>
          {(wiring) => (
            <select {...wiring} key={typed?.diagnosisGroup} defaultValue={typed?.diagnosisGroup ?? ''} required>
              <option value="" disabled>
                Choose one
              </option>
              {DIAGNOSIS_GROUPS.map((group) => (
                <option key={group}>{group}</option>
              ))}
            </select>
          )}
        </Field>
      </div>
      <FieldGroup id="sex" label="Growth table" hint="Which table a child’s height and weight are read against." refusal={errors.sex}>
        {SEXES.map(([value, words]) => (
          <label className="choice" key={value}>
            <input type="radio" name="sex" value={value} defaultChecked={typed?.sex === value} />
            {words}
          </label>
        ))}
      </FieldGroup>
      <FieldGroup id="affected" label="Affected limbs" hint="The patient’s own right and left." refusal={errors.affected}>
        {LIMBS.map(([value, words]) => (
          <label className="choice" key={value}>
            <input type="checkbox" name="affected" value={value} defaultChecked={typed?.affected.includes(value)} />
            {words}
          </label>
        ))}
      </FieldGroup>
      <details className="field" open={PARTS.some((box) => typed?.affected.includes(box))}>
        <summary>Affected hand, foot, trunk or head</summary>
        <span className="choices">
          {PARTS.map((box) => (
            <label className="choice" key={box}>
              <input type="checkbox" name="affected" value={box} defaultChecked={typed?.affected.includes(box)} />
              {capitalized(box)}
            </label>
          ))}
        </span>
      </details>
      <FieldGroup id="language" label="Language of the family page" refusal={errors.language}>
        {Object.entries(LANGUAGE_NAMES).map(([value, words]) => (
          <label className="choice" key={value}>
            <input type="radio" name="language" value={value} defaultChecked={(typed?.language ?? 'en') === value} />
            <span lang={value}>{words}</span>
          </label>
        ))}
      </FieldGroup>
      {start && (
        <Field id="reason" label="Why it is changed" hint="Stands in the history beside the change." refusal={errors.reason}>
          {(wiring) => <input {...wiring} defaultValue={typed?.reason} autoComplete="off" maxLength={200} required />}
        </Field>
      )}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {busy ? 'Saving…' : saveWords}
        </button>
        {saveThen && (
          <button type="submit" className="button" name="then" value={saveThen.value} aria-disabled={busy}>
            {saveThen.words}
          </button>
        )}
        <a className="button" href={leave.to}>
          {leave.words}
        </a>
      </div>
    </form>
  );
}
