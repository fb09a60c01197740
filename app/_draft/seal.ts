/** Text under a key: what the browser's own store holds of a draft. Nobody reads it without the key, which is stored nowhere here. */
export type Sealed = { readonly iv: Uint8Array<ArrayBuffer>; readonly bytes: ArrayBuffer };

/**
 * A key of 32 bytes, base64, as the browser uses it: it cannot be taken out again. Undefined where the browser has no cryptography,
 * which is so on plain http from another machine.
 */
export async function keyOf(base64: string): Promise<CryptoKey | undefined> {
  if (!globalThis.crypto?.subtle) return undefined;
  const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
  return crypto.subtle.importKey('raw', bytes, 'AES-GCM', false, ['encrypt', 'decrypt']);
}

/** A value sealed under a key and bound to its name. AES-GCM, 256 bits, a fresh 96-bit nonce each time (NIST SP 800-38D). */
export async function sealed(key: CryptoKey, name: string, value: unknown): Promise<Sealed> {
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const text = new TextEncoder().encode(JSON.stringify(value));
  const bytes = await crypto.subtle.encrypt({ name: 'AES-GCM', iv, additionalData: new TextEncoder().encode(name) }, key, text);
  return { iv, bytes };
}

/** The value again; undefined under another key or name, or when it was changed. */
export async function unsealed(key: CryptoKey, name: string, { iv, bytes }: Sealed): Promise<unknown> {
  try {
    const text = await crypto.subtle.decrypt({ name: 'AES-GCM', iv, additionalData: new TextEncoder().encode(name) }, key, bytes);
    return JSON.parse(new TextDecoder().decode(text));
  } catch {
    return undefined;
  }
}
