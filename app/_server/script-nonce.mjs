import { randomBytes } from 'node:crypto';

const POLICY = 'content-security-policy';

/**
 * Lets only those scripts run inside a page that the program itself wrote for this one answer.
 *
 * The framework writes a page's data as scripts, differently for each answer. It puts a word (nonce) on each of them when the request
 * carries a policy that names one; the same word goes into the policy of the answer. Without this guard the policy of next.config.js
 * stands alone, and no script inside a page runs. Source: W3C Content Security Policy Level 3, section 2.3.1 (at least 128 random bits).
 */
export function allowOwnScripts(request, response) {
  const nonce = randomBytes(16).toString('base64');
  delete request.headers[`${POLICY}-report-only`];
  request.headers[POLICY] = `script-src 'nonce-${nonce}'`;
  const writeHead = response.writeHead;
  response.writeHead = function withNonce(...given) {
    const policy = this.getHeader(POLICY);
    if (typeof policy === 'string') this.setHeader(POLICY, policy.replace("script-src 'self'", `script-src 'self' 'nonce-${nonce}'`));
    return writeHead.apply(this, given);
  };
}
