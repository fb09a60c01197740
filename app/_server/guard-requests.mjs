import { randomBytes } from 'node:crypto';
import http from 'node:http';
import { boundBody } from './body-bounds.mjs';
import { keepFromCrowding } from './crowded-connections.mjs';
import { sayFailuresPlainly } from './plain-error-page.mjs';
import { faultOf, onceItIsACall, refuse } from './request-shape.mjs';
import { allowOwnScripts } from './script-nonce.mjs';

/*
 * Loaded before the server (`node --import`), by itself or with the log: what holds for every request before the program sees it.
 *
 * Times: a request's head must be whole within ten seconds, the request within five minutes (an import of 33 MB over 1 Mbit/s takes
 * four and a half); `body-bounds` is stricter with strangers. The program learns who sends a request from the socket, in a header whose
 * name nobody outside can know. A request that no page of this program sends is refused in one line (`request-shape.mjs`). A page's own scripts are told apart by a word made for this one answer.
 */

const TIMES = { headersTimeout: 10_000, requestTimeout: 300_000, connectionsCheckingInterval: 2000, keepAliveTimeout: 5000 };

/** Connections of one server at once; far more than a clinic has windows, far fewer than a process has handles. */
const MOST_CONNECTIONS = 2000;

/** Tells the program (app/_auth/limits) in which header the address of the socket stands. */
process.env.RUNGWISE_CALLER_HEADER = `x-caller-${randomBytes(16).toString('hex')}`;

const create = http.createServer.bind(http);

http.createServer = (...given) => {
  const [options, listener] = typeof given[0] === 'function' ? [{}, given[0]] : [given[0] ?? {}, given[1]];
  const server = create({ ...TIMES, ...options }, listener && guarded(listener));
  server.maxConnections = MOST_CONNECTIONS;
  keepFromCrowding(server);
  return server;
};

function guarded(listener) {
  return (request, response) => {
    const fault = faultOf(request);
    if (fault) return refuse(response, fault);
    request.headers[process.env.RUNGWISE_CALLER_HEADER] = request.socket.remoteAddress ?? 'unknown';
    sayFailuresPlainly(request, response);
    allowOwnScripts(request, response);
    if (boundBody(request, response)) return onceItIsACall(request, response, listener);
  };
}
