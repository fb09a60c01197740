/** Above a form whose boxes were refused: that nothing was saved, or what stops the whole form. Read aloud when it comes. */
export function NotSaved({ errors }: { readonly errors: Readonly<Record<string, string>> }) {
  return (
    <p className="refusal" role="alert">
      {errors.form ?? (Object.keys(errors).length > 0 ? 'Nothing was saved yet. Look at the marked boxes.' : '')}
    </p>
  );
}
