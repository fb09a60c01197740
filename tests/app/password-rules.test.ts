import { describe, expect, it } from 'vitest';
import { ownWordsOf, passwordRefusal } from '@/app/_auth/password-rules';

const OWN = ownWordsOf({ name: 'R. Adeyemi', email: 'reception@harbour.example' }, 'Harbour Lane');

/** NIST SP 800-63B-4 (2025), section 3.1.1.2, unless another source stands beside. */
describe('a password', () => {
  it.each([
    ['fifteen characters', 'taped in a café'],
    ['sixty-four and more', 'four words, and four more, and then some that nobody would ever say in one breath 1234567890'],
    ['spaces and any script', 'пять слов на бумаге'],
    ['no digit, no capitalized, no sign', 'quietly borrowed umbrella'],
  ])('is taken with %s', async (_what, password) => {
    expect(await passwordRefusal(password, OWN)).toBeUndefined();
  });

  it('of fourteen characters is never taken, with a second factor or without; a letter beyond the basic plane counts once', async () => {
    expect(await passwordRefusal('taped in a cot', OWN)).toMatch(/15 characters/);
    expect(await passwordRefusal('🧵'.repeat(14), OWN)).toMatch(/15 characters/);
    expect(await passwordRefusal('x'.repeat(201), OWN)).toMatch(/At most 200/);
  });

  it('is estimated without holding up anybody else, however long', async () => {
    let longest = 0;
    let before = performance.now();
    const ticks = setInterval(() => {
      longest = Math.max(longest, performance.now() - before);
      before = performance.now();
    }, 5);
    const refusal = await passwordRefusal('1234567890 2024-11-25 '.repeat(9), OWN);
    clearInterval(ticks);
    process.stdout.write(`longest wait for others during an estimate: ${longest.toFixed(0)} ms\n`);
    expect([undefined, expect.stringMatching(/tried first/)]).toContainEqual(refusal);
    expect(longest).toBeLessThan(500);
  });

  it('is not taken with what the earlier list of exact strings let through', async () => {
    for (const password of ['Password12345678!', 'p@ssw0rdp@ssw0rd', 'summer2024summer2024', 'contraseñacontraseña', 'iloveyouiloveyou1'])
      expect(await passwordRefusal(password, OWN), password).toMatch(/tried first/);
  });

  it.each([
    'passwordpassword',
    'aaaaaaaaaaaaaaaa',
    'abcabcabcabcabcabc',
    '1234567890123456',
    'abcdefghijklmnop',
    'qwertyuiopasdfgh',
    '9876543210987654',
  ])('that only goes on as it begins is refused: %s', async (password) => {
    expect(await passwordRefusal(password, OWN)).toMatch(/tried first/);
  });

  it.each(['Harbour Lane 2026', 'adeyemi reception!', 'rungwise rungwise 1', 'reception@harbour.example'])(
    'that lives on a name others know is refused: %s',
    async (password) => {
      expect(await passwordRefusal(password, OWN)).toMatch(/a name that others know/);
    },
  );
});
