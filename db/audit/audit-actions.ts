/**
 * Everything that can be done, by the name it has in the clinic's history; a new deed is one entry here.
 *
 * The name is sealed into the chain and stays when a patient is erased. So it is one of these and never holds a typed word: what a
 * person wrote goes into the detail, which an erasure blanks. Checked by type where a deed is noted and again where it is written.
 */
const AUDIT_ACTIONS = [
  ...[
    'broken history signed for',
    'calendar address opened',
    'calendar address withdrawn',
    'cautions answered',
    'coverage set',
    'booking changed',
    'death noted',
    'death taken back',
    'date moved',
  ],
  ...['event added', 'event withdrawn', 'facts for the work written', 'family page approved', 'hold lifted by override'],
  ...['import opened', 'import read', 'import taken back', 'joined by a link'],
  ...['leaving gone through', 'link to a family page made', 'link to a family page withdrawn', 'lost second factor turned off'],
  ...['one-time link made', 'one-time link made by command', 'other sessions ended', 'password changed', 'password chosen anew by a link'],
  ...['observation added', 'observation corrected', 'observation taken back'],
  ...['order proposed', 'order changed', 'order checked', 'order sent', 'order delivered', 'order cancelled'],
  ...['patient added', 'patient brought in', 'patient erased', 'patient revised'],
  ...[
    'person added',
    'person disabled',
    'person enabled',
    'person invited',
    'phase begun',
    'phase corrected',
    'phase taken back',
    'piece added',
    'piece revised',
    'prompt answered',
  ],
  ...['reply of the family received', 'reply of the family answered'],
  ...['record sealed as it stood', 'recovery code used', 'recovery codes made anew', 'replacement letter signed', 'role changed'],
  ...[
    'second factor turned off',
    'second factor turned on',
    'session ended',
    'setting changed',
    'study begun',
    'study ended',
    'study taping corrected',
    'study taping saved',
    'taken out',
    'visit booked',
    'visit revised',
    'visit saved',
  ],
] as const;

/** The name of a deed. */
export type AuditAction = (typeof AUDIT_ACTIONS)[number];

/** The deed by which a lead signs for a broken or shortened history; its detail names the rows and the heads. */
export const MENDED: AuditAction = 'broken history signed for';

/** What an order's change is called. */
export type OrderAct = 'changed' | 'checked' | 'sent' | 'delivered' | 'cancelled';

/** Refuses a name that is not among them. */
export function assertAction(action: string): asserts action is AuditAction {
  if (!AUDIT_ACTIONS.some((one) => one === action)) throw new Error('A deed without a known name was not written into the history.');
}

/**
 * The name as a screen shows it: rows sealed before the names were fixed may bear typed words after a colon, which are left away.
 *
 * Example: `order cancelled: …` is shown as `order cancelled`.
 */
export function shownAction(action: string): string {
  return action.startsWith('order cancelled:') ? 'order cancelled' : action;
}
