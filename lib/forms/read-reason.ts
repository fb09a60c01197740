/** Longest reason of a change, in characters: of the facts for the work, and of what else asks for one. Clinic default. */
export const LONGEST_REASON = { facts: 300, other: 200 } as const;

/**
 * What stops the reason of a change, at its box `reason`: one that is missing where it is asked for, or too long. It is never cut.
 *
 * Example: 201 characters where 200 may stand: `Too long: 200 characters at most.`
 */
export function reasonErrors(reason: string, asked: boolean, most: number): Readonly<Record<string, string>> {
  if (reason.trim().length > most) return { reason: `Too long: ${most} characters at most.` };
  return asked && reason.trim() === '' ? { reason: 'Say in a few words why it is changed.' } : {};
}
