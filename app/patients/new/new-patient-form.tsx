'use client';

import { useActionState } from 'react';
import { Field, FieldGroup } from '@/app/_shell/field';
import { DIAGNOSIS_GROUPS, LANGUAGES } from '@/app/patients/diagnosis-groups';
import { addPatientAction, type NewPatientState } from './actions';
import { Refusals } from './refusals';

const LIMBS = [
  ['right-leg', 'Right leg'],
  ['left-leg', 'Left leg'],
  ['right-arm', 'Right arm'],
  ['left-arm', 'Left arm'],
] as const;

const SEXES = [
  ['F', 'Girls’ and women’s'],
  ['M', 'Boys’ and men’s'],
  ['X', 'No table'],
] as const;

const UNTOUCHED: NewPatientState = { errors: {}, typed: null };

/** The form of a new patient. It posts without JavaScript too, and a refused one keeps every word typed. */
export function NewPatientForm({ submissionId, today }: { submissionId: string; today: string }) {
  const [{ errors, typed }, send, busy] = useActionState(addPatientAction, UNTOUCHED);
  return (
    <form className="panel form" action={send} noValidate>
      <Refusals errors={errors} />
      <input type="hidden" name="submissionId" value={submissionId} />
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
      <FieldGroup id="affected" label="Limbs treated" hint="The patient’s own right and left." refusal={errors.affected}>
        {LIMBS.map(([value, words]) => (
          <label className="choice" key={value}>
            <input type="checkbox" name="affected" value={value} defaultChecked={typed?.affected.includes(value)} />
            {words}
          </label>
        ))}
      </FieldGroup>
      <FieldGroup id="language" label="Language of the family page" refusal={errors.language}>
        {Object.entries(LANGUAGES).map(([value, words]) => (
          <label className="choice" key={value}>
            <input type="radio" name="language" value={value} defaultChecked={(typed?.language ?? 'en') === value} />
            {words}
          </label>
        ))}
      </FieldGroup>
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {busy ? 'Saving…' : 'Add patient'}
        </button>
        <a className="button" href="/patients">
          Leave without adding
        </a>
      </div>
    </form>
  );
}
