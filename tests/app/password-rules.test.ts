import { describe, expect, it } from 'vitest';
import { ownWordsOf, passwordRefusal } from '@/app/_session/password-rules';

const OWN = ownWordsOf({ name: 'R. Adeyemi', email: 'reception@harbour.example' }, 'Harbour Lane');

/** NIST SP 800-63B-4 (2025), section 3.1.1.2, unless another source stands beside. */
describe('a password', () => {
  it.each([
    ['fifteen characters', 'taped in a café'],
    ['sixty-four and more', 'four words, and four more, and then some that nobody would ever say in one breath 1234567890'],
    ['spaces and any script', 'пять слов на бумаге'],
    ['no digit, no capital, no sign', 'quietly borrowed umbrella'],
  ])('is taken with %s', (_what, password) => {
    expect(passwordRefusal(password, false, OWN)).toBeUndefined();
  });

  it('of fourteen characters needs a second factor, one of seven is never taken; a letter beyond the basic plane counts once', () => {
    expect(passwordRefusal('taped in a cot', false, OWN)).toMatch(/15 characters/);
    expect(passwordRefusal('taped in a cot', true, OWN)).toBeUndefined();
    expect(passwordRefusal('owl & sea', true, OWN)).toBeUndefined();
    expect(passwordRefusal('q7 kvz2', true, OWN)).toMatch(/8 characters/);
    expect(passwordRefusal('🧵'.repeat(7), true, OWN)).toMatch(/8 characters/);
  });

  it.each([
    // The first entries of eight or more of "10k most common", D. Miessler, SecLists (MIT), 2024, from memory.
    ...['password', '12345678', 'baseball', 'football', 'jennifer', 'superman', 'trustno1', 'sunshine', 'iloveyou', 'starwars', 'computer'],
    ...['PASSWORD', 'Password1', '1q2w3e4r', 'qwertyui', 'asdfghjkl'],
  ])('that is common is refused also beside a second factor: %s', (password) => {
    expect(passwordRefusal(password, true, OWN)).toMatch(/Many people/);
  });

  it.each([
    'passwordpassword',
    'aaaaaaaaaaaaaaaa',
    'abcabcabcabcabcabc',
    '1234567890123456',
    'abcdefghijklmnop',
    'qwertyuiopasdfgh',
    '9876543210987654',
  ])('that only goes on as it begins is refused: %s', (password) => {
    expect(passwordRefusal(password, false, OWN)).toMatch(/Many people/);
  });

  it.each(['Harbour Lane 2026', 'adeyemi reception!', 'rungwise rungwise 1', 'reception@harbour.example'])(
    'that lives on a name others know is refused: %s',
    (password) => {
      expect(passwordRefusal(password, false, OWN)).toMatch(/a name that others know/);
    },
  );
});
