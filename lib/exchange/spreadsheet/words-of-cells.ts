/** The sex a cell says, in the words people use; the cell as it is where it says something else. */
export function sexOf(text: string): string {
  const first = text.trim().toLowerCase();
  if (['f', 'female', 'w', 'woman', 'girl'].includes(first)) return 'F';
  if (['m', 'male', 'man', 'boy'].includes(first)) return 'M';
  return text.trim();
}

/** The limb a cell says; the cell as it is where it says something else. Example: `Lower limb` is `leg`. */
export function limbOf(text: string): string {
  const words = text.trim().toLowerCase();
  if (/^(?:(?:left|right|l|r)\s+)?(?:leg|lower limb|lower extremity)$/.test(words)) return 'leg';
  if (/^(?:(?:left|right|l|r)\s+)?(?:arm|upper limb|upper extremity)$/.test(words)) return 'arm';
  return words;
}
