import { createHmac } from 'node:crypto';

/**
 * What an authenticator program shows at a moment, from the key as text.
 *
 * RFC 4226, section 5.3, and RFC 6238 written out apart from the program that is tested.
 */
export function authenticator(key: string, at = Date.now()): string {
  let bits = '';
  for (const letter of key.replaceAll(' ', '')) bits += 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'.indexOf(letter).toString(2).padStart(5, '0');
  const secret = Uint8Array.from({ length: bits.length >> 3 }, (_, i) => Number.parseInt(bits.slice(8 * i, 8 * i + 8), 2));
  const message = new DataView(new ArrayBuffer(8));
  message.setUint32(4, Math.floor(at / 30_000));
  const mac = new DataView(Uint8Array.from(createHmac('sha1', secret).update(new Uint8Array(message.buffer)).digest()).buffer);
  return `${(mac.getUint32(mac.getUint8(19) & 15) & 0x7fffffff) % 1_000_000}`.padStart(6, '0');
}
