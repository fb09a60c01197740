import { garmentForm } from '@/lib/record/garment-catalogue';
import type { DaysFigure, ShareFigure } from '@/lib/service/service-figures';
import { type ServicePeriod, showMonth } from '@/lib/service/service-period';

/** A form of garment in words; what names none says so. */
export function formInWords(form: string | null): string {
  return form === null ? 'no form named' : (garmentForm(form)?.words ?? form);
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
