/** The id of a named measure's box, by which it is focused from anywhere; a refusal of it names the same place. */
export function measureBoxId(where: string): string {
  return `box-measure/${where}`;
}
