import { Field } from '@/app/_form/field';

/** The box for the password a person has now: asked before anything that would let somebody else in, or them out. */
export function CurrentPassword({ id, refusal }: { readonly id: string; readonly refusal: string | undefined }) {
  return (
    <Field id={id} label="Your password now" refusal={refusal}>
      {(wiring) => <input {...wiring} name="current" type="password" autoComplete="current-password" required />}
    </Field>
  );
}
