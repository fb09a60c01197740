import { connect, createServer, type Server } from 'node:net';
import { eq } from 'drizzle-orm';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type PostgresServer, startPostgres } from '@/tests/postgres-server';

/** The modules of `db` on a server of its own, reached at `address`. */
async function programOn(address: string) {
  vi.resetModules();
  process.env.DATABASE_URL = address;
  const { runTransaction } = await import('@/db/sql/run-steps');
  const { CommitUnanswered } = await import('@/db/sql/try-again');
  const { closeDatabase, getDatabase } = await import('@/db/client');
  const { clinic } = await import('@/db/schema/schema');
  const database = await getDatabase();
  const units = { subtitle: '', lengthUnit: 'cm', massUnit: 'kg', timeZone: 'UTC' } as const;
  let runs = 0;
  /** Writes two clinics in one transaction; what happens `between` happens the first time only. Says how often the steps were begun. */
  const writeTwo = async (names: readonly [string, string], between?: () => Promise<void>): Promise<number> => {
    runs = 0;
    const [first, second] = names.map((name) => ({ id: name, name, ...units }));
    if (!first || !second) throw new Error('two are needed');
    await runTransaction(database, function* (tx) {
      runs += 1;
      yield tx.insert(clinic).values(first).returning({ id: clinic.id });
      if (between && runs === 1) yield between().then(() => []);
      yield tx.insert(clinic).values(second).returning({ id: clinic.id });
    });
    return runs;
  };
  const written = async (name: string) => (await database.select().from(clinic).where(eq(clinic.id, name))).length;
  return { writeTwo, written, runs: () => runs, CommitUnanswered, close: closeDatabase };
}

describe('a server that goes away', () => {
  let server: PostgresServer;
  let program: Awaited<ReturnType<typeof programOn>>;
  let between: Server | undefined;
  beforeEach(async () => {
    server = await startPostgres();
  });
  afterEach(async () => {
    await program.close();
    between?.close();
    between = undefined;
    delete process.env.DATABASE_URL;
    await server.stop();
  });

  it('between two statements of a write: the write is made again, whole and once', async () => {
    program = await programOn(server.url);
    expect(await program.writeTwo(['first', 'second'], () => server.restart())).toBe(2);
    expect([await program.written('first'), await program.written('second')]).toEqual([1, 1]);
  });

  it('before a write and a reading, for half a second: both wait for it', async () => {
    program = await programOn(server.url);
    const back = server.restart(500);
    await new Promise((resolve) => setTimeout(resolve, 150));
    const [, read] = await Promise.all([program.writeTwo(['first', 'second']), program.written('other')]);
    await back;
    expect([await program.written('first'), await program.written('second'), read]).toEqual([1, 1, 0]);
  });

  it('after the commit was sent, before its answer: the write is not made again, and whoever asked is told', async () => {
    let cutting = false;
    const { port } = new URL(server.url);
    // Passes everything on, until a commit comes: that reaches the server, and its answer reaches nobody.
    between = createServer((near) => {
      const far = connect(Number(port), '127.0.0.1');
      let deaf = false;
      near.on('data', (sent) => {
        deaf ||= cutting && sent.includes('commit');
        far.write(sent);
      });
      far.on('data', (answer) => (deaf ? near.destroy() : near.write(answer)));
      for (const end of [near, far]) end.on('error', () => {}).on('close', () => [near, far].map((one) => one.destroy()));
    });
    await new Promise<void>((resolve) => between?.listen(0, '127.0.0.1', resolve));
    const address = between.address();
    program = await programOn(server.url.replace(`:${port}/`, `:${typeof address === 'object' ? address?.port : ''}/`));
    cutting = true;
    await expect(program.writeTwo(['first', 'second'])).rejects.toBeInstanceOf(program.CommitUnanswered);
    cutting = false;
    expect(program.runs()).toBe(1);
    expect([await program.written('first'), await program.written('second')]).toEqual([1, 1]);
  });
});
