/**
 * Characters of a password, with a second factor and without: what is guessed offline knows no second factor.
 * Source: NIST SP 800-63B-4 (2025), section 3.1.1.2: at least 15 for one that stands alone.
 */
export const SHORTEST = 15;
/** The longest that is taken: more than the 64 that the same section asks for, and no burden to hash. */
export const LONGEST = 200;
