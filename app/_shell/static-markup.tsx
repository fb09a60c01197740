import { createElement, type JSX } from 'react';
import { markupOf } from './markup-of';

type Props<Tag extends keyof JSX.IntrinsicElements> = { readonly as: Tag } & JSX.IntrinsicElements[Tag];

/**
 * An element whose inside is only looked at: a drawing, a table of figures.
 *
 * Its inside travels as one text, in the page and in the data beside it, not as a tree of elements, and the browser has nothing to wake up
 * in it. The one place that hands over markup; `markupOf` escapes all of it.
 */
export function StaticMarkup<Tag extends keyof JSX.IntrinsicElements>({ as, children, ...given }: Props<Tag>) {
  return createElement(as, { ...given, dangerouslySetInnerHTML: { __html: markupOf(children) } });
}
