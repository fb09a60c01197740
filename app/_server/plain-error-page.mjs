/**
 * Gives a person whose page failed words that need no script: the framework leaves such a page empty until its script has come.
 *
 * Only a whole page asked for by a browser is replaced, never the answer to a page's own function. The number is that of the server's log
 * (`log-requests.mjs`).
 */
export function sayFailuresPlainly(request, response) {
  if (request.headers.rsc || request.headers['next-action'] || !/text\/html/.test(request.headers.accept ?? '')) return;
  const { writeHead, write, end } = response;
  let isReplaced = false;
  response.writeHead = function orOurPage(...given) {
    const status = typeof given[0] === 'number' ? given[0] : this.statusCode;
    if (status !== 500 || isReplaced) return writeHead.apply(this, given);
    isReplaced = true;
    const page = Buffer.from(pageFor(request, this.getHeader('x-request-id')));
    for (const name of ['content-encoding', 'transfer-encoding', 'etag']) this.removeHeader(name);
    writeHead.call(this, 500, { 'Content-Type': 'text/html; charset=utf-8', 'Content-Length': page.length, 'Cache-Control': 'no-store' });
    end.call(this, page);
    return this;
  };
  response.write = function unlessReplaced(...given) {
    if (!this.headersSent) this.writeHead(this.statusCode);
    return isReplaced ? true : write.apply(this, given);
  };
  response.end = function unlessReplaced(...given) {
    if (!this.headersSent) this.writeHead(this.statusCode);
    return isReplaced ? this : end.apply(this, given);
  };
}

function pageFor({ method, url }, number) {
  const sent =
    method === 'GET'
      ? ''
      : '<p>Whether what you sent was saved is not certain: look before you send it again. “Back” in your browser may bring back what you typed.</p>';
  const again = method === 'GET' ? `<p><a href="${escaped(url)}">Try again</a></p>` : '';
  const inLog = number ? `<p>Number in the server’s log: ${escaped(String(number))}</p>` : '';
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>This page could not be shown</title></head><body><main id="main"><h1>This page could not be shown</h1><p>Everything saved before is kept. Try again; if it happens twice, tell whoever runs the server.</p>${sent}${again}<p><a href="/">Go to Today</a></p>${inLog}</main></body></html>`;
}

function escaped(text) {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
