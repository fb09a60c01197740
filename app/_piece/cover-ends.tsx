/** The landmarks a cover can end at, offered to the boxes that name `cover-ends` as their list. */
export function CoverEnds({ ends }: { readonly ends: readonly string[] }) {
  return (
    <datalist id="cover-ends">
      {ends.map((end) => (
        <option key={end} value={end} />
      ))}
    </datalist>
  );
}
