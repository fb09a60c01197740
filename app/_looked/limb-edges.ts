/** Both edges of a limb from its girths about x = 55, each as wide as a round limb of that girth; at most 80 px. */
export function limbEdges(ys: readonly number[], girthsMm: readonly number[]): string {
  const widest = girthsMm.reduce((most, girth) => Math.max(most, girth), 1);
  const half = (girth: number) => (girth / widest) * 40;
  const edge = (sign: 1 | -1) =>
    ys.map((y, at) => `${at === 0 ? 'M' : 'L'}${(55 + sign * half(girthsMm[at] ?? 0)).toFixed(1)} ${y.toFixed(1)}`).join('');
  return edge(-1) + edge(1);
}
