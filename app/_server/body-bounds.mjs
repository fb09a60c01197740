import { createHmac, timingSafeEqual } from 'node:crypto';

const KB = 1024;
const MB = 1024 * KB;

/** The one address that takes files in. It refuses more than 32 MB itself, with its page; what is only a little more may reach it. */
const UPLOAD = '/clinic/exchange/upload';

/**
 * What is taken of a body, by who sends it: bytes of one, bytes of all that are on their way at once, bodies of one caller at once, and
 * how long one may be on its way. A stranger has a few boxes to fill in; a sheet with every box full is about 200 kB.
 */
const BOUNDS = {
  stranger: { most: 64 * KB, together: 4 * MB, ofOne: 16, ms: 10_000 },
  known: { most: MB, together: 64 * MB, ofOne: 64, ms: 60_000 },
  upload: { most: 40 * MB, together: 80 * MB, ofOne: 2, ms: 300_000 },
};

const SESSION = /(?:^|;\s*)(?:__Secure-)?better-auth\.session_token=([^;]+)/;

const onTheWay = { stranger: new Map(), known: new Map(), upload: new Map() };

/**
 * Bounds the body of a request before anything reads it; false when it was refused and answered.
 *
 * A length that is said is judged at once; one that is not is counted as it comes and the connection closed where it grows too large. Who
 * signed in is known by the signature of their cookie alone, without the database: whether it still opens anything is asked later.
 */
export function boundBody(request, response) {
  const said = Number(request.headers['content-length'] ?? 0);
  const isUnsaid = request.headers['transfer-encoding'] !== undefined;
  if (said === 0 && !isUnsaid) return true;
  const kind = kindOf(request);
  const { most, together, ofOne, ms } = BOUNDS[kind];
  if (said > most) return refuse(request, response, 413, kind);
  const bodies = onTheWay[kind];
  const caller = request.socket.remoteAddress ?? '';
  const reserved = isUnsaid ? most : said;
  const own = [...bodies.values()].filter((body) => body.caller === caller);
  const sum = [...bodies.values()].reduce((bytes, body) => bytes + body.reserved, reserved);
  const isProxied = Boolean(process.env.TRUSTED_PROXY_HEADER);
  if (sum > together || (!isProxied && own.length >= ofOne)) return refuse(request, response, 503, kind);
  bodies.set(request, { caller, reserved });
  const late = setTimeout(() => request.socket.destroy(), ms).unref();
  const arrived = () => {
    clearTimeout(late);
    bodies.delete(request);
  };
  for (const end of ['end', 'close']) request.once(end, arrived);
  if (isUnsaid) countAsItComes(request, response, most, kind);
  return true;
}

function countAsItComes(request, response, most, kind) {
  const push = request.push;
  let size = 0;
  request.push = function counted(chunk, ...rest) {
    size += chunk?.length ?? 0;
    if (size <= most) return push.call(this, chunk, ...rest);
    if (response.headersSent) request.socket.destroy();
    else refuse(request, response, 413, kind);
    return false;
  };
}

function refuse(request, response, status, kind) {
  const words =
    status === 413 ? 'What was sent is too large. Nothing was taken.' : 'Too much is being sent at once. Try again in a moment.';
  const isForm = status === 413 && kind === 'upload';
  const to = isForm ? { Location: '/clinic/exchange?refused=too%20large' } : {};
  const headers = {
    'Content-Type': 'text/plain; charset=utf-8',
    Connection: 'close',
    ...(status === 503 && { 'Retry-After': '5' }),
    ...to,
  };
  response.writeHead(isForm ? 303 : status, headers);
  response.end(`${words}\n`, () => setTimeout(() => request.socket.destroy(), isForm ? 3000 : 500).unref());
  request.removeAllListeners('data');
  request.push = () => true;
  return false;
}

function kindOf({ headers, url, method }) {
  if (!isSignedIn(headers.cookie)) return 'stranger';
  return method === 'POST' && url === UPLOAD ? 'upload' : 'known';
}

/** True of a cookie that this program signed (the sign-in library: value, a dot, and HMAC-SHA256 of the value in base64). */
function isSignedIn(cookies) {
  const secret = process.env.AUTH_SECRET;
  const cookie = SESSION.exec(cookies ?? '')?.[1];
  if (!secret || !cookie) return false;
  const text = decodedOrNothing(cookie);
  const dot = text.lastIndexOf('.');
  const [value, signature] = [text.slice(0, Math.max(dot, 0)), Buffer.from(text.slice(dot + 1))];
  const right = Buffer.from(createHmac('sha256', secret).update(value).digest('base64'));
  return signature.length === right.length && timingSafeEqual(signature, right);
}

function decodedOrNothing(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return '';
  }
}
