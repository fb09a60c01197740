import { describe, expect, it } from 'vitest';
import { CommitUnanswered, tryAgain } from '@/db/sql/try-again';

const lost = (code: string) => Object.assign(new Error('the query failed'), { cause: Object.assign(new Error('undone'), { code }) });

/** A write that loses so many times before it is kept. */
function losing(times: number, code: string) {
  let runs = 0;
  const run = async () => {
    runs++;
    if (runs <= times) throw lost(code);
    return 'kept';
  };
  return { run, runs: () => runs };
}

describe('a write that PostgreSQL undid in favour of another', () => {
  it.each(['40P01', '40001'])('is run again after %s until it is kept', async (code) => {
    const write = losing(3, code);
    expect(await tryAgain(write.run)).toBe('kept');
    expect(write.runs()).toBe(4);
  });

  it('is given up after six times, with the error as it was', async () => {
    const write = losing(100, '40P01');
    await expect(tryAgain(write.run)).rejects.toThrow('the query failed');
    expect(write.runs()).toBe(6);
  });

  it.each(['57P01', '08006', 'ECONNRESET'])('is run again after %s, which ends the connection before the commit', async (code) => {
    const write = losing(2, code);
    expect(await tryAgain(write.run)).toBe('kept');
    expect(write.runs()).toBe(3);
  });

  it('is not run again once its commit was sent, however the connection was lost', async () => {
    let runs = 0;
    const write = async () => {
      runs++;
      throw new CommitUnanswered(lost('57P01'));
    };
    await expect(tryAgain(write)).rejects.toThrow('being committed');
    expect(runs).toBe(1);
  });

  it('is not run again for any other error', async () => {
    const write = losing(1, '23505');
    await expect(tryAgain(write.run)).rejects.toThrow('the query failed');
    expect(write.runs()).toBe(1);
  });
});
