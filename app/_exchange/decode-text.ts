/**
 * The text of a file's bytes, or undefined when it holds none.
 *
 * UTF-8 or UTF-16 by its mark; else UTF-8 where it is valid; else Windows-1252, which older spreadsheets write. A file with null characters
 * is no text. Source: WHATWG Encoding Standard.
 */
export function decodeText(bytes: Uint8Array): string | undefined {
  const text = decoded(bytes);
  return text.includes('\0') ? undefined : text;
}

function decoded(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return windows1252(bytes);
  }
}

/** What Windows-1252 has where Latin-1 has control characters, from 0x80 on. Source: WHATWG Encoding Standard, index windows-1252. */
const FROM_80 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/** Decoded here, because Node 20 decodes it as Latin-1. */
function windows1252(bytes: Uint8Array): string {
  return new TextDecoder('latin1').decode(bytes).replace(/[\u0080-\u009f]/g, (sign) => FROM_80[sign.charCodeAt(0) - 0x80] ?? sign);
}
