/**
 * The revision of a head that counts for nothing: it was brought in by an import and taken back. No revision has this number, so that
 * nothing joins it; what was written stays where it was, and the log says who took it back.
 */
export const REVOKED = 0;
