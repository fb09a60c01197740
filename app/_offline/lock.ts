import { parse, stringify } from 'devalue';

/** What a device keeps so that anybody may put something in and only a code takes it out: a public key, and the private one under the code. */
export type Lock = {
  readonly publicKey: CryptoKey;
  readonly privateKey: ArrayBuffer;
  readonly salt: Uint8Array<ArrayBuffer>;
  readonly iv: Uint8Array<ArrayBuffer>;
};

/** Something put in: text under a key of its own, and that key under the public one. */
export type Locked = { readonly key: ArrayBuffer; readonly iv: Uint8Array<ArrayBuffer>; readonly bytes: ArrayBuffer };

const RSA = { name: 'RSA-OAEP', hash: 'SHA-256' } as const;
/** Source: OWASP Password Storage Cheat Sheet, PBKDF2-HMAC-SHA-256. */
const ROUNDS = 600_000;

/** The shortest code: the files of the device can be taken away and tried at leisure. Clinic default. */
export const SHORTEST_CODE = 10;
export const LONGEST_CODE = 100;

/** True where the browser has cryptography: not on plain http from another machine. */
export function canLock(): boolean {
  return Boolean(globalThis.crypto?.subtle);
}

/** A new lock with its code. RSA-OAEP of 3,072 bits (NIST SP 800-56B); the code through PBKDF2 (SP 800-132) into AES-GCM of 256 bits. */
export async function newLock(code: string): Promise<Lock> {
  const kind = { ...RSA, modulusLength: 3072, publicExponent: new Uint8Array([1, 0, 1]) };
  const { publicKey, privateKey } = await crypto.subtle.generateKey(kind, true, ['encrypt', 'decrypt']);
  const salt = crypto.getRandomValues(new Uint8Array(16));
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const wrapped = await crypto.subtle.wrapKey('pkcs8', privateKey, await keyOfCode(code, salt), { name: 'AES-GCM', iv });
  return { publicKey, privateKey: wrapped, salt, iv };
}

/** The key that takes out, for as long as this page holds it; undefined for another code. */
export async function unlock({ privateKey, salt, iv }: Lock, code: string): Promise<CryptoKey | undefined> {
  const ofCode = await keyOfCode(code, salt);
  return crypto.subtle.unwrapKey('pkcs8', privateKey, ofCode, { name: 'AES-GCM', iv }, RSA, false, ['decrypt']).catch(() => undefined);
}

/** A value that only the code takes out again, bound to its name. */
export async function putIn({ publicKey }: Lock, name: string, value: unknown): Promise<Locked> {
  const raw = crypto.getRandomValues(new Uint8Array(32));
  const own = await crypto.subtle.importKey('raw', raw, 'AES-GCM', false, ['encrypt']);
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const bytes = await crypto.subtle.encrypt({ name: 'AES-GCM', iv, additionalData: encoded(name) }, own, encoded(stringify(value)));
  return { key: await crypto.subtle.encrypt(RSA, publicKey, raw), iv, bytes };
}

/** The value again; undefined under another key or name, or when it was changed. */
export async function takeOut(privateKey: CryptoKey, name: string, { key, iv, bytes }: Locked): Promise<unknown> {
  try {
    const raw = await crypto.subtle.decrypt(RSA, privateKey, key);
    const own = await crypto.subtle.importKey('raw', raw, 'AES-GCM', false, ['decrypt']);
    const text = await crypto.subtle.decrypt({ name: 'AES-GCM', iv, additionalData: encoded(name) }, own, bytes);
    return parse(new TextDecoder().decode(text));
  } catch {
    return undefined;
  }
}

async function keyOfCode(code: string, salt: Uint8Array<ArrayBuffer>): Promise<CryptoKey> {
  const typed = await crypto.subtle.importKey('raw', encoded(code.normalize('NFC').trim()), 'PBKDF2', false, ['deriveKey']);
  const how = { name: 'PBKDF2', hash: 'SHA-256', iterations: ROUNDS, salt };
  return crypto.subtle.deriveKey(how, typed, { name: 'AES-GCM', length: 256 }, false, ['wrapKey', 'unwrapKey']);
}

function encoded(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text);
}
