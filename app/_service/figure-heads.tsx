/** Column heads of figures, one a name. */
export function FigureHeads({ names }: { readonly names: readonly string[] }) {
  return names.map((name) => (
    <th key={name} scope="col" className="numeric">
      {name}
    </th>
  ));
}
