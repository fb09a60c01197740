import type { FamilyPage } from '@/lib/summary/family/family-content';

/** Every sentence of a family page, in reading order: what a readability formula looks at. */
export function sentencesOf(page: FamilyPage): string[] {
  return [
    ...page.sections.flatMap((section) => section.sentences),
    ...(page.picture ? [`${page.picture.caption}.`] : []),
    ...(page.plan?.items.map((item) => item.what) ?? []),
    ...(page.steps.items.length > 0 ? page.steps.items.map((item) => item.what) : [page.steps.none]),
    page.wait.text,
    ...page.call.signs.map((sign) => `${page.call.lead} ${sign}.`),
    ...page.call.lines,
    ...(page.call.also ?? []).flatMap(({ lead, signs, line }) => [...signs.map((sign) => `${lead} ${sign}.`), ...(line ? [line] : [])]),
    page.footer,
  ];
}
