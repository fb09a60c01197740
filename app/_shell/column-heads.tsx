/** The heads of a table's columns, in order; those of figures stand over the ends of their figures. */
export function ColumnHeads({ of, numeric = false }: { readonly of: readonly string[]; readonly numeric?: boolean }) {
  return of.map((head) => (
    <th key={head} scope="col" className={numeric ? 'numeric' : undefined}>
      {head}
    </th>
  ));
}
