/** Characters of a password that stands alone. Source: NIST SP 800-63B-4 (2025), section 3.1.1.2: at least 15. */
export const SHORTEST_ALONE = 15;
/** Characters of a password beside a second factor. Source: the same section: at least 8. */
export const SHORTEST_WITH_FACTOR = 8;
/** The longest that is taken: more than the 64 that the same section asks for, and no burden to hash. */
export const LONGEST = 200;
