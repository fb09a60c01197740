import { createElement, type JSX, type ReactElement, type ReactNode } from 'react';
import { markupOf } from './markup-of';
import { oncePer } from './once-per';

type Props<Tag extends keyof JSX.IntrinsicElements> = { readonly as: Tag } & JSX.IntrinsicElements[Tag];

/**
 * An element whose inside is only looked at: a drawing, a table of figures.
 *
 * Its inside travels as one text, in the page and in the data beside it, not as a tree of elements, and the browser has nothing to wake up
 * in it. This file alone hands over markup; `markupOf` escapes all of it.
 */
export function StaticMarkup<Tag extends keyof JSX.IntrinsicElements>({ as, children, ...given }: Props<Tag>) {
  return createElement(as, { ...given, dangerouslySetInnerHTML: { __html: markupOf(children) } });
}
/** Inside other markup it is its element. */
StaticMarkup.isMarkup = true;

/** A part as it was written: its outermost element and the inside as text. Null where it shows nothing. */
type Written = { readonly tag: string; readonly given: Readonly<Record<string, unknown>>; readonly inside: string } | null;

/**
 * A part in which nothing acts, written once for the thing that it shows (`oncePer`): what it says may come from `of` and `name` alone.
 * Its outermost element, and nothing else, is known to the browser.
 */
export function rememberedMarkup(of: object, name: string, part: () => ReactNode): ReactNode {
  const written = oncePer(of, name, () => writtenOf(part()));
  if (written === null) return null;
  return createElement(written.tag, { ...written.given, key: name, dangerouslySetInnerHTML: { __html: written.inside } });
}

function writtenOf(node: ReactNode): Written {
  if (node === null || node === undefined || node === false) return null;
  const { type, props } = node as ReactElement<Readonly<Record<string, unknown>>>;
  const { children, as, ...given } = props;
  if (typeof type === 'string') return { tag: type, given, inside: markupOf(children as ReactNode) };
  if (typeof type !== 'function') throw new Error('A part that is remembered as markup has one element around it.');
  if ('isMarkup' in type) return { tag: String(as), given, inside: markupOf(children as ReactNode) };
  return writtenOf((type as (given: typeof props) => ReactNode)(props));
}
