import type { AnswerOutcome } from '@/lib/analysis/answer-outcomes';
import { garmentForm } from '@/lib/garment-forms/garment-catalogue';
import type { DaysFigure, ShareFigure } from '@/lib/service/service-figures';
import { type ServicePeriod, showMonth } from '@/lib/service/service-period';
import type { GivenAgainst } from '@/lib/service/what-came';
import { VERDICT_WORDS } from '@/lib/summary/verdict-words';
import type { Verdict } from '@/lib/trend/verdict';

/** A form of garment in words; what names none says so. */
export function formInWords(form: string | null): string {
  return form === null ? 'no form named' : (garmentForm(form)?.words ?? (form.startsWith('own-') ? 'a form of the clinic’s own' : form));
}

/** A rule in words: its name without dashes. */
export function ruleInWords(rule: string | null): string {
  return (rule ?? 'no rule named').replaceAll('-', ' ');
}

/** The period in words. */
export function periodInWords({ from, to }: ServicePeriod): string {
  return from === null ? `Everything up to ${showMonth(to)}` : from === to ? showMonth(to) : `${showMonth(from)} to ${showMonth(to)}`;
}

/** A share per hundred, one decimal below ten. Example: 0.0586 is 5.9. */
export function perHundred(share: number): string {
  const pct = 100 * share;
  return pct < 10 && pct > 0 ? pct.toFixed(1) : pct.toFixed(0);
}

/** The 95 % range of a share, per hundred. */
export function shareRange(figure: Exclude<ShareFigure, { noAnswer: string }>): string {
  return `${perHundred(figure.low)}–${perHundred(figure.high)}`;
}

/** Days as people read them: whole, or with a half. */
export function showDays(days: number): string {
  return Number.isInteger(days) ? String(days) : days.toFixed(1);
}

/** The 95 % range of a median; an end that so few cases cannot give is said. */
export function daysRange({ low, high }: Exclude<DaysFigure, { noAnswer: string }>): string {
  return low === null || high === null ? 'too few for a range' : `${showDays(low)}–${showDays(high)}`;
}

/** What a change was said against. */
export const AGAINST_WORDS = { baseline: 'since the baseline', last: 'since the visit before' } as const;

/** What came of an answer, in words. */
export const CAME_WORDS: Readonly<Record<AnswerOutcome['came'], string>> = {
  confirmed: 'confirmed',
  contradicted: 'contradicted',
  open: 'still open',
  'no-claim': 'claimed nothing',
  'before-early': 'before the early day',
  between: 'between the early and the outgrow day',
  after: 'on the outgrow day or after',
  'not-yet': 'not yet, as far as was measured',
};

/** A given verdict in words. Example: `last as-expected` is “as expected, since the visit before”. */
export function givenInWords(given: string): string {
  const [against = '', word = ''] = given.split(' ');
  return `${VERDICT_WORDS[word as Verdict] ?? word}, ${AGAINST_WORDS[against as GivenAgainst] ?? against}`;
}

/** A tenth of chances in words. Example: 3 is 30–40 in 100. */
export function tenthInWords(tenth: number): string {
  return `${10 * tenth}–${10 * tenth + 10} in 100`;
}
