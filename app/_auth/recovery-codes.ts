import { createHash, randomInt } from 'node:crypto';

/** Codes in a set. Common practice. */
const CODES = 10;
const GROUPS = 4;
const LETTERS_IN_GROUP = 4;
/** Letters and digits that are not taken for each other: no 0, 1, l, o. */
const LETTERS = 'abcdefghijkmnpqrstuvwxyz23456789';

/** A set of recovery codes such as `k3fd-9xwm-t2ab-vq7e`: sixteen letters of 32, 80 bits, so that a bare hash keeps them. */
export function newRecoveryCodes(): readonly string[] {
  const group = () => Array.from({ length: LETTERS_IN_GROUP }, () => LETTERS[randomInt(LETTERS.length)]).join('');
  return Array.from({ length: CODES }, () => Array.from({ length: GROUPS }, group).join('-'));
}

/** The hash under which a code is kept, however it was typed: case, spaces and dashes do not count. */
export function recoveryCodeHash(typed: string): string {
  const code = typed.toLowerCase().replace(/[^a-z0-9]/g, '');
  return createHash('sha256').update(code).digest('base64url');
}
