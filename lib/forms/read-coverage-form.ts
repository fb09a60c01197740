import { COVERED_USES, type CoverageLine, type CoverageRule, EXCEPTION_REASONS } from '../record/coverage';

/** What was typed, by box: `payer`, `source`, `day/quantity`, `day/months`, `day/clock`, `exception/lost`. */
export type TypedCoverage = Readonly<Record<string, string>>;

/**
 * A coverage rule from what was typed, or one sentence beside each box that stops it.
 *
 * A use without quantity and months has no line. Refuses a rule without payer, source or any line.
 */
export function readCoverageForm(
  typed: TypedCoverage,
  id: string,
):
  | { readonly kind: 'read'; readonly rule: CoverageRule }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> } {
  const errors: Record<string, string> = {};
  const text = (box: string): string => (typed[box] ?? '').trim();
  const whole = (box: string, most: number, what: string): number => {
    if (/^\d{1,3}$/.test(text(box)) && Number(text(box)) >= 1 && Number(text(box)) <= most) return Number(text(box));
    errors[box] = `Type whole ${what}, 1 to ${most}.`;
    return 0;
  };
  if (text('payer') === '') errors.payer = 'Name the payer as the clinic calls it.';
  if (text('source') === '') errors.source = 'Say where the rule is written, so that it can be checked.';
  const lines = COVERED_USES.flatMap((use): CoverageLine[] => {
    if (text(`${use}/quantity`) === '' && text(`${use}/months`) === '') return [];
    const clock = text(`${use}/clock`) === 'fixed' ? 'fixed' : 'rolling';
    return [{ use, quantity: whole(`${use}/quantity`, 50, 'pieces'), months: whole(`${use}/months`, 120, 'months'), clock }];
  });
  if (lines.length === 0) errors['day/quantity'] ??= 'Give at least one use its quantity and months.';
  if (Object.keys(errors).length > 0) return { kind: 'refused', errors };
  const exceptions = EXCEPTION_REASONS.filter((reason) => text(`exception/${reason}`) === 'yes');
  return { kind: 'read', rule: { id, payer: text('payer'), source: text('source'), lines, exceptions } };
}

/** A rule as its form shows it again. */
export function coverageFormOf(rule: CoverageRule): TypedCoverage {
  const lines = rule.lines.flatMap(({ use, quantity, months, clock }) => [
    [`${use}/quantity`, String(quantity)],
    [`${use}/months`, String(months)],
    [`${use}/clock`, clock],
  ]);
  const exceptions = rule.exceptions.map((reason) => [`exception/${reason}`, 'yes']);
  return { payer: rule.payer, source: rule.source, ...Object.fromEntries([...lines, ...exceptions]) };
}
