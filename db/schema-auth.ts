import { columns } from './columns';
import { clinic } from './schema-clinic';

const { table, id, text, oneOf, wholeNumber, bigNumber, yesNo, moment, index, uniqueIndex } = columns;

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
  },
  (row) => [uniqueIndex('user_email').on(row.email), index('user_clinic').on(row.clinicId)],
);

/** One signed-in browser, until its shift ends or it is withdrawn. */
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

/** Tries per address and route, counted in the database so that every process sees the same count. */
export const rateLimit = table(
  'rate_limit',
  { id: id(), key: text().notNull(), count: wholeNumber().notNull(), lastRequest: bigNumber().notNull() },
  (row) => [uniqueIndex('rate_limit_key').on(row.key)],
);

/** Wrong passwords per account, whatever address they came from. `email` is a hash: a wrong try may hold a real secret. */
export const signInFailure = table('sign_in_failure', { id: id(), emailHash: text().notNull(), at: moment().notNull() }, (row) => [
  index('sign_in_failure_email').on(row.emailHash, row.at),
]);
