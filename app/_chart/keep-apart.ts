/**
 * Places for labels along a line, moved as little as possible so that neighbours are at least `gap` apart; the order stays.
 *
 * Shape: wanted places in any order, px; places in the same order, px. Two labels wanted at 10 with a gap of 14 come to 3 and 17.
 * Least squares: z(i+1) − z(i) ≥ gap is a rising sequence after i × gap is taken off, so that neighbours that clash share their mean
 * (pool adjacent violators, Ayer and others 1955).
 */
export function keepApart(wanted: readonly number[], gap: number): number[] {
  const order = wanted.map((at, index) => ({ at, index })).sort((one, other) => one.at - other.at || one.index - other.index);
  const blocks: { sum: number; members: number[] }[] = [];
  order.forEach(({ at, index }, rank) => {
    let block = { sum: at - rank * gap, members: [index] };
    for (let before = blocks.at(-1); before && meanOf(before) > meanOf(block); before = blocks.at(-1)) {
      blocks.pop();
      block = { sum: before.sum + block.sum, members: [...before.members, ...block.members] };
    }
    blocks.push(block);
  });
  const placed = [...wanted];
  let rank = 0;
  for (const block of blocks)
    for (const index of block.members) {
      placed[index] = Math.round((meanOf(block) + rank * gap) * 100) / 100;
      rank += 1;
    }
  return placed;
}

function meanOf({ sum, members }: { sum: number; members: readonly number[] }): number {
  return sum / members.length;
}
