import type { ReactNode } from 'react';

type FieldProps = {
  readonly id: string;
  readonly label: string;
  readonly hint?: ReactNode;
  readonly refusal?: string | undefined;
  readonly children: (wiring: Wiring) => ReactNode;
};

type Wiring = { readonly id: string; readonly name: string; readonly 'aria-describedby': string; readonly 'aria-invalid': boolean };

/** One box with its label above, a hint, and the reason it was refused below; the box is told where both stand. */
export function Field({ id, label, hint, refusal, children }: FieldProps) {
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {hint && (
        <span className="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      {children({ id, name: id, 'aria-describedby': `${id}-hint ${id}-refusal`, 'aria-invalid': Boolean(refusal) })}
      <span className="refusal" id={`${id}-refusal`}>
        {refusal}
      </span>
    </div>
  );
}

/** Several boxes under one legend, such as the affected limbs. */
export function FieldGroup({ id, label, hint, refusal, children }: Omit<FieldProps, 'children'> & { readonly children: ReactNode }) {
  return (
    <fieldset className="field" id={id} aria-describedby={`${id}-hint ${id}-refusal`} tabIndex={-1}>
      <legend>{label}</legend>
      {hint && (
        <span className="hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      <span className="choices">{children}</span>
      <span className="refusal" id={`${id}-refusal`}>
        {refusal}
      </span>
    </fieldset>
  );
}
