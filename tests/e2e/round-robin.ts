import { createServer, type IncomingMessage, request, type ServerResponse } from 'node:http';

/** What stands in front of several processes: each request goes to the next one in turn. */
export type RoundRobin = {
  readonly address: string;
  /** Requests that each process has answered whole, by its address. */
  readonly answered: ReadonlyMap<string, number>;
  /** How many requests a process has in hand. */
  readonly inHand: (target: string) => number;
  /** Requests whose process went away before it had answered. */
  readonly cut: () => number;
  readonly close: () => Promise<void>;
};

/** A small proxy: takes the next process when one is not there at all, and answers 502 when one goes away with a request in hand. */
export async function roundRobin(targets: readonly string[]): Promise<RoundRobin> {
  const answered = new Map(targets.map((target) => [target, 0]));
  const inHand = new Map(targets.map((target) => [target, 0]));
  const count = (of: Map<string, number>, target: string, by: number) => of.set(target, (of.get(target) ?? 0) + by);
  let turn = 0;
  let cut = 0;

  function pass(asked: IncomingMessage, body: Buffer, answer: ServerResponse, triesLeft: number): void {
    const target = targets[turn++ % targets.length] ?? '';
    count(inHand, target, 1);
    let open = true;
    const done = (whole: boolean, error?: NodeJS.ErrnoException) => {
      if (!open) return;
      open = false;
      count(inHand, target, -1);
      if (whole) return void count(answered, target, 1);
      if (error?.code === 'ECONNREFUSED' && triesLeft > 0) return pass(asked, body, answer, triesLeft - 1);
      cut += 1;
      if (answer.headersSent) answer.destroy();
      else answer.writeHead(502).end();
    };
    const passed = request(target + asked.url, { method: asked.method, headers: asked.headers, agent: false });
    passed.on('error', (error) => done(false, error));
    passed.on('response', (got) => {
      answer.writeHead(got.statusCode ?? 502, got.headers);
      got.pipe(answer, { end: false });
      got.on('close', () => {
        if (got.complete) answer.end();
        done(got.complete);
      });
    });
    passed.end(body);
  }

  const server = createServer(async (asked, answer) => {
    const parts: Buffer[] = [];
    for await (const part of asked) parts.push(part as Buffer);
    pass(asked, Buffer.concat(parts), answer, targets.length - 1);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const place = server.address();
  const close = () =>
    new Promise<void>((resolve) => {
      server.close(() => resolve());
      server.closeAllConnections();
    });
  return {
    address: `http://127.0.0.1:${typeof place === 'object' ? place?.port : ''}`,
    answered,
    inHand: (target) => inHand.get(target) ?? 0,
    cut: () => cut,
    close,
  };
}
