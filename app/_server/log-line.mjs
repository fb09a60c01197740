import { stripVTControlCharacters } from 'node:util';

/** A part of an address that the program itself names; anything else is an id, a token or something typed. */
const OWN_WORD = /^[a-z][a-z-]{1,24}$/;

/** Longest text that is kept of what the framework says. */
const MOST_TEXT = 160;

/**
 * An address without anything that names somebody or opens something: no query, and each part that is no word of the program's own as `…`.
 *
 * Example: `/patients/3f9c…/visits/new?q=oduya` is `/patients/…/visits/new`; `/share/Zk31…` is `/share/…`.
 */
export function addressWithoutNames(url) {
  const path = (url ?? '').split(/[?#]/)[0] ?? '';
  return path.replace(/[^/]+/g, (part) => (OWN_WORD.test(part) ? part : '…'));
}

/** One answered request as a line of the log. Times in milliseconds. */
export function requestLine({ id, method, url, status, ms, at }) {
  return {
    at,
    level: status >= 500 ? 'error' : 'info',
    kind: 'request',
    request: id,
    method,
    address: addressWithoutNames(url),
    status,
    ms,
  };
}

/**
 * What went wrong as a line of the log: the kind of error, its number on the screen and where it was thrown, never its words, because they
 * may quote a row; of a text what is left without figures, quotes and addresses.
 */
export function errorLine({ id, said, at }) {
  const error = said.find((one) => one instanceof Error);
  const line = { at, level: 'error', kind: 'error', ...(id && { request: id }) };
  if (!error) return { ...line, text: textWithoutNames(said.filter((one) => typeof one === 'string').join(' ')) };
  const code = error.code ?? error.cause?.code;
  return {
    ...line,
    name: error.name,
    ...(error.digest && { digest: error.digest }),
    ...(code && { code: String(code) }),
    thrown: framesOf(error),
  };
}

/** The places an error went through, files of the program only. */
function framesOf(error) {
  const frames = (error.stack ?? '').split('\n').filter((line) => line.trim().startsWith('at '));
  return frames.slice(0, 4).map((line) =>
    line
      .trim()
      .replace(/^at /, '')
      .replace(/\(?(?:file:\/\/)?\/\S*?(?=\.next|node_modules|app\/)/, ''),
  );
}

function textWithoutNames(text) {
  const plain = stripVTControlCharacters(text);
  return plain
    .replace(/\S+@\S+/g, '…')
    .replace(/(["'`“])[^"'`”]*["'`”]/g, '…')
    .replace(/\d+/g, '#')
    .slice(0, MOST_TEXT);
}
