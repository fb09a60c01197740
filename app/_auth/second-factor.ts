import 'server-only';
import { symmetricDecrypt, symmetricEncrypt } from 'better-auth/crypto';
import { encode } from 'uqr';
import type { ConfirmedFactor } from '@/db/people/second-factor';
import { type Proof, spendRecoveryCode, spendStep } from '@/db/people/signing-in';
import { authSecret } from './auth-secret';
import { newRecoveryCodes, recoveryCodeHash } from './recovery-codes';
import { factorAddress, newSecret, stepOfCode } from './totp';

/** A second factor on offer: to be read by an authenticator program, and confirmed by a code from it. Nothing is kept yet. */
export type FactorOffer = {
  /** The secret, sealed for this person; the form sends it back. */
  readonly sealed: string;
  /** The secret in groups, for typing. */
  readonly key: string;
  /** The dark squares of the QR code, a row each. */
  readonly squares: readonly (readonly boolean[])[];
};

/** Offers a fresh second factor to a person. */
export async function offerFactor(person: { readonly id: string; readonly email: string }, clinicName: string): Promise<FactorOffer> {
  const secret = newSecret();
  const sealed = await symmetricEncrypt({ key: authSecret(), data: `${person.id} ${secret}` });
  const squares = encode(factorAddress(secret, clinicName, person.email), { border: 4, ecc: 'M' }).data;
  return { sealed, key: secret.replace(/(.{4})(?=.)/g, '$1 '), squares };
}

/** The factor that was offered, once its code is right, with the recovery codes to show once; undefined for a wrong code or somebody else's offer. */
export async function confirmFactor(
  userId: string,
  sealed: string,
  code: string,
  now = new Date(),
): Promise<{ readonly factor: ConfirmedFactor; readonly recoveryCodes: readonly string[] } | undefined> {
  const secret = await secretIn(sealed, userId);
  const lastStep = secret && stepOfCode(secret, code, now);
  if (!lastStep) return undefined;
  const recoveryCodes = newRecoveryCodes();
  return { factor: { sealedSecret: sealed, lastStep, recoveryCodeHashes: recoveryCodes.map(recoveryCodeHash) }, recoveryCodes };
}

/** Whether somebody who signs in has this person's second factor: a code, each good once, or one of their recovery codes. */
export async function passesFactor(proof: Proof, sealedSecret: string, typed: string, now = new Date()): Promise<boolean> {
  const secret = await secretIn(sealedSecret, proof.id);
  const step = secret && stepOfCode(secret, typed, now);
  if (step) return spendStep(proof.id, step);
  return spendRecoveryCode(proof, recoveryCodeHash(typed), now);
}

async function secretIn(sealed: string, userId: string): Promise<string | undefined> {
  try {
    const [owner, secret] = (await symmetricDecrypt({ key: authSecret(), data: sealed })).split(' ');
    return owner === userId ? secret : undefined;
  } catch {
    return undefined;
  }
}
