/** The roles as they are chosen, the one most people have first. Kept apart from `db` so that a browser gets no more than the words. */
export const ROLE_WORDS = ['therapist', 'read-only', 'lead'] as const;
