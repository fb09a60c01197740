import { Fragment, type ReactNode } from 'react';

/** SVG's presentation attributes are written with a hyphen; the others keep their capitalized letter, as `viewBox` does. */
const HYPHENATED =
  /^(?:stroke|fill|stop|flood|font|dominant|alignment|baseline|letter|word|pointer|shape|vector|color|image)[A-Z]|^(?:clipPath|clipRule|markerStart|markerMid|markerEnd|paintOrder|textAnchor|textDecoration|textRendering|writingMode)$/;
const RENAMED: Readonly<Record<string, string>> = { className: 'class', htmlFor: 'for' };
const VOID = new Set(['area', 'base', 'br', 'col', 'embed', 'hr', 'img', 'link', 'meta', 'source', 'track', 'wbr']);
/** Elements with a state of their own, which markup alone would not give them. */
const ACTING = new Set(['button', 'form', 'input', 'option', 'script', 'select', 'style', 'textarea']);
const ESCAPED: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#x27;' };

/** An element as JSX makes it: its tag or its function, and what it was given. */
type Made = { readonly type: unknown; readonly props: Readonly<Record<string, unknown>> };

/**
 * Elements as HTML, as React's own `renderToStaticMarkup` writes them: for drawings and tables that nothing acts in.
 *
 * Components are called as functions: one that waits, uses a hook or runs in the browser is refused, and so are handlers, styles and
 * elements that are typed into. Every text and attribute is escaped. Throws on what it cannot write.
 * Example: `<text textAnchor="end">5 &lt; 6</text>` gives `<text text-anchor="end">5 &lt; 6</text>`.
 */
export function markupOf(node: ReactNode): string {
  if (node === null || node === undefined || typeof node === 'boolean') return '';
  if (typeof node === 'string' || typeof node === 'number') return escaped(String(node));
  if (Array.isArray(node)) return node.map(markupOf).join('');
  if (typeof node !== 'object' || !('props' in node)) throw new Error(`${String(node)} cannot be written as markup.`);
  const { type, props } = node as Made;
  const children = props.children as ReactNode;
  if (type === Fragment) return markupOf(children);
  if (typeof type === 'string') return elementOf(type, props, children);
  if (typeof type !== 'function' || '$$typeof' in type) throw new Error('A part that runs in the browser cannot be written as markup.');
  if ('isMarkup' in type) {
    const { as, ...given } = props;
    return elementOf(String(as), given, children);
  }
  return markupOf((type as (given: typeof props) => ReactNode)(props));
}

function elementOf(tag: string, props: Made['props'], children: ReactNode): string {
  if (ACTING.has(tag)) throw new Error(`<${tag}> acts and cannot be written as markup.`);
  const opening = `<${tag}${Object.entries(props)
    .map(([name, value]) => attributeOf(name, value))
    .join('')}`;
  return VOID.has(tag) ? `${opening}/>` : `${opening}>${markupOf(children)}</${tag}>`;
}

function attributeOf(name: string, value: unknown): string {
  if (name === 'children' || name === 'ref' || value === null || value === undefined) return '';
  const worded = name.startsWith('aria-') || name.startsWith('data-');
  if (typeof value === 'boolean' && !worded) return value ? ` ${name}=""` : '';
  if (!['string', 'number', 'boolean'].includes(typeof value)) throw new Error(`${name} cannot be written as markup.`);
  return ` ${attributeName(name)}="${escaped(String(value))}"`;
}

function attributeName(name: string): string {
  return RENAMED[name] ?? (HYPHENATED.test(name) ? name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`) : name);
}

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (one) => ESCAPED[one] ?? one);
}
