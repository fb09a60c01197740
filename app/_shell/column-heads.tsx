/** The heads of a table's columns, in order. */
export function ColumnHeads({ of }: { readonly of: readonly string[] }) {
  return of.map((head) => (
    <th key={head} scope="col">
      {head}
    </th>
  ));
}
