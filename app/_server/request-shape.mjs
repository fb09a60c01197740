import { AsyncResource } from 'node:async_hooks';
import http from 'node:http';

/** How deep a call of the program's own pages goes at most: a form, its sheets, their cells, what was kept of one. */
const DEEPEST = 40;

/** What the framework writes for values that JSON lacks; in a plain body nothing else begins with `$` but `$$`, a text that does. */
const NO_REFERENCE = /^\$(\$|undefined$|D|n-?\d+$|-0$|NaN$|-?Infinity$)/;

/**
 * What is wrong with a request that no page of this program sends, as a status and one line; undefined of any other.
 *
 * An address that cannot be read; a host that is not the one people type (APP_URL, where it is set; an address of this machine or network
 * is for those who watch over it); a change asked for by a page of another site, as the browser says (`Origin`). The program asks the last
 * once more, with all that it knows (`app/_auth/same-origin.ts`).
 */
export function faultOf({ method, url, headers }) {
  if (!isReadable(url)) return { status: 400, words: 'This address cannot be read.' };
  if (!isOurHost(headers.host)) return { status: 421, words: 'This program does not answer at this address.' };
  const changes = method !== 'GET' && method !== 'HEAD' && method !== 'OPTIONS';
  if (changes && headers.origin && !isOurOrigin(headers))
    return { status: 403, words: 'This was sent by a page of another site. Nothing was done.' };
  return undefined;
}

function isReadable(url) {
  try {
    return !decodeURIComponent(url.split('?', 1)[0]).includes('\0');
  } catch {
    return false;
  }
}

function isOurHost(host) {
  const own = process.env.APP_URL;
  if (!own || !URL.canParse(own) || new URL(own).host === host) return true;
  const name = URL.canParse(`http://${host}`) ? new URL(`http://${host}`).hostname : '';
  return name === 'localhost' || /^[\d.]+$/.test(name) || name.startsWith('[');
}

function isOurOrigin({ origin, host }) {
  const own = process.env.APP_URL;
  return [own, `http://${host}`, `https://${host}`].some((one) => one && URL.canParse(one) && new URL(one).origin === origin);
}

/**
 * Hands a call of a page's function (`Next-Action`) on once its body is whole and has the shape of one: a posted form to its end, or a list in
 * JSON, not deeper than any form, without references to parts that did not come. Any other gets one line. Other requests are handed on as they are.
 *
 * The body is bounded before (`body-bounds.mjs`). What goes on is a request like the first with the body in it.
 */
export function onceItIsACall(request, response, listener) {
  if (request.method !== 'POST' || !request.headers['next-action']) return listener(request, response);
  const goOn = AsyncResource.bind(listener);
  const parts = [];
  request.on('data', (part) => parts.push(part));
  request.once('end', () => {
    const body = Buffer.concat(parts);
    if (!isForm(request.headers['content-type'], body) && !isCall(body.toString('utf8')))
      return refuse(response, { status: 400, words: 'This is no call of a page of this program. Nothing was done.' });
    goOn(withBody(request, body), response);
  });
}

/** Answers a request with a status and one line. */
export function refuse(response, { status, words }) {
  response.writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' });
  response.end(`${words}\n`);
}

/** A posted form that came whole: it ends as its head says. Source: RFC 2046, section 5.1.1. */
function isForm(type, body) {
  const boundary = /^multipart\/form-data;\s*boundary="?([^";]+)"?/.exec(type ?? '')?.[1];
  return (
    boundary !== undefined &&
    body
      .subarray(-boundary.length - 8)
      .toString('latin1')
      .trimEnd()
      .endsWith(`--${boundary}--`)
  );
}

function isCall(text) {
  try {
    const given = JSON.parse(text);
    return Array.isArray(given) && hasShape(given);
  } catch {
    return false;
  }
}

function hasShape(given) {
  const left = [[given, 1]];
  for (let next = left.pop(); next; next = left.pop()) {
    const [value, depth] = next;
    if (depth > DEEPEST || (typeof value === 'string' && value.startsWith('$') && !NO_REFERENCE.test(value))) return false;
    if (value !== null && typeof value === 'object') for (const part of Object.values(value)) left.push([part, depth + 1]);
  }
  return true;
}

function withBody(request, body) {
  const whole = new http.IncomingMessage(request.socket);
  const { httpVersion, httpVersionMajor, httpVersionMinor, method, url, headers, rawHeaders } = request;
  Object.assign(whole, { httpVersion, httpVersionMajor, httpVersionMinor, method, url, headers, rawHeaders, complete: true });
  whole.push(body);
  whole.push(null);
  return whole;
}
