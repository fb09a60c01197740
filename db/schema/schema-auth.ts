import { columns } from '../sql/columns';
import { clinic } from './schema-clinic';

const { table, id, text, oneOf, bigNumber, yesNo, moment, index, uniqueIndex } = columns;

/** A person who may sign in, of one clinic, with one role. */
export const user = table(
  'user',
  {
    id: id(),
    clinicId: text()
      .notNull()
      .references(() => clinic.id),
    role: oneOf('lead', 'therapist', 'read-only').notNull(),
    name: text().notNull(),
    email: text().notNull(),
    emailVerified: yesNo().notNull(),
    image: text(),
    createdAt: moment().notNull(),
    updatedAt: moment().notNull(),
    /** Since when they may not sign in. */
    disabledAt: moment(),
    /** Sessions and links from before this moment open nothing. */
    accessFrom: moment(),
    lastSignedInAt: moment(),
  },
  (row) => [uniqueIndex('user_email').on(row.email), index('user_clinic').on(row.clinicId)],
);

/** One signed-in browser, until its shift ends, nobody uses it for a while, or it is ended. */
export const session = table(
  'session',
  {
    id: id(),
    userId: text()
      .notNull()
      .references(() => user.id, { onDelete: 'cascade' }),
    token: text().notNull(),
    expiresAt: moment().notNull(),
    ipAddress: text(),
    userAgent: text(),
    createdAt: moment().notNull(),
    updatedAt: moment().notNull(),
    /** Noted once a minute at most. */
    lastUsedAt: moment(),
  },
  (row) => [uniqueIndex('session_token').on(row.token), index('session_user').on(row.userId)],
);

/** How a person proves who they are; here always a password's hash. */
export const account = table(
  'account',
  {
    id: id(),
    userId: text()
      .notNull()
      .references(() => user.id, { onDelete: 'cascade' }),
    accountId: text().notNull(),
    providerId: text().notNull(),
    accessToken: text(),
    refreshToken: text(),
    idToken: text(),
    accessTokenExpiresAt: moment(),
    refreshTokenExpiresAt: moment(),
    scope: text(),
    password: text(),
    /** True when the password is too short to stand without a second factor. */
    needsSecondFactor: yesNo(),
    createdAt: moment().notNull(),
    updatedAt: moment().notNull(),
  },
  (row) => [index('account_user').on(row.userId)],
);

/** Short-lived proofs that the sign-in library asks for. */
export const verification = table(
  'verification',
  {
    id: id(),
    identifier: text().notNull(),
    value: text().notNull(),
    expiresAt: moment().notNull(),
    createdAt: moment().notNull(),
    updatedAt: moment().notNull(),
  },
  (row) => [index('verification_identifier').on(row.identifier)],
);

/** A second factor that somebody set up and confirmed. Its secret is sealed with AUTH_SECRET. */
export const secondFactor = table('second_factor', {
  /** The person's id. */
  id: text()
    .primaryKey()
    .references(() => user.id, { onDelete: 'cascade' }),
  sealedSecret: text().notNull(),
  /** The latest half-minute whose code was used: that code and every earlier one opens nothing any more. */
  lastStep: bigNumber().notNull(),
  at: moment().notNull(),
});

/** A code to get in without the second factor, once. Only its hash is kept. */
export const recoveryCode = table(
  'recovery_code',
  {
    id: id(),
    userId: text()
      .notNull()
      .references(() => user.id, { onDelete: 'cascade' }),
    codeHash: text().notNull(),
    usedAt: moment(),
  },
  (row) => [uniqueIndex('recovery_code_of').on(row.userId, row.codeHash)],
);

/** The link with which a person chooses a password, once. A new one takes the place of the one before. Only the hash of its token is kept. */
export const oneTimeLink = table(
  'one_time_link',
  {
    /** The person's id. */
    id: text()
      .primaryKey()
      .references(() => user.id, { onDelete: 'cascade' }),
    tokenHash: text().notNull(),
    by: text().notNull(),
    at: moment().notNull(),
    expiresAt: moment().notNull(),
    usedAt: moment(),
  },
  (row) => [uniqueIndex('one_time_link_token').on(row.tokenHash)],
);

/** Tries to get in, by account and by address, counted in the database so that every process sees the same count. `whose` is a hash. */
export const countedTry = table('counted_try', { id: id(), whose: text().notNull(), at: moment().notNull() }, (row) => [
  index('counted_try_whose').on(row.whose, row.at),
]);
