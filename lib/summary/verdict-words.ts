import type { Verdict } from '../trend/verdict';

/** A verdict in a table cell. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  'no-clear-change': 'no clear change',
  'as-expected': 'as expected',
  'more-than-expected': 'larger than expected',
  'less-than-expected': 'smaller than expected',
  'cannot-tell': 'cannot tell',
};
