import fc from 'fast-check';
import { Fragment, type ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { markupOf } from '@/app/_markup/markup-of';

/** The reference is React's own renderer: source, react-dom/server `renderToStaticMarkup`, of the pinned version. */
const asReact = (node: ReactNode) => expect(markupOf(node)).toBe(renderToStaticMarkup(node));

/** Names that SVG 2, appendix “Property index” and “Attribute index”, gives its attributes, as JSX spells them. */
const SVG_ATTRIBUTES =
  'alignmentBaseline baselineShift clipPath clipRule colorInterpolation colorInterpolationFilters colorRendering dominantBaseline fillOpacity fillRule floodColor floodOpacity fontFamily fontSize fontSizeAdjust fontStretch fontStyle fontVariant fontWeight imageRendering letterSpacing markerEnd markerMid markerStart paintOrder pointerEvents shapeRendering stopColor stopOpacity strokeDasharray strokeDashoffset strokeLinecap strokeLinejoin strokeMiterlimit strokeOpacity strokeWidth textAnchor textDecoration textRendering vectorEffect wordSpacing writingMode clipPathUnits gradientTransform gradientUnits lengthAdjust markerHeight markerUnits markerWidth maskContentUnits maskUnits patternContentUnits patternTransform patternUnits preserveAspectRatio refX refY spreadMethod startOffset textLength viewBox cx cy d dx dy fill height opacity points r rx ry stroke transform width x x1 x2 y y1 y2'.split(
    ' ',
  );

function Place({ name, children }: { name: string; children?: ReactNode }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      {children}
    </tr>
  );
}

describe('markup of elements, against React’s own renderer', () => {
  it('writes tables: components, lists, fragments, empty answers, numbers', () => {
    asReact(
      <table className="worklist">
        <caption>Girth & height, “cm”</caption>
        <colgroup>
          <col className="col-day" />
        </colgroup>
        <tbody>
          {[1, 2.5, 0].map((figure) => (
            <Fragment key={figure}>
              {figure === 0 && <tr />}
              <Place name={`${figure} cm <wide>`}>
                <td className="figure" colSpan={2}>
                  {figure}
                  {figure > 1 && ' cm'}
                </td>
                {null}
                {undefined}
                {false}
              </Place>
            </Fragment>
          ))}
        </tbody>
      </table>,
    );
  });

  it('writes links, labels and what screen readers are told', () => {
    asReact(
      <p
        id="a"
        lang="es"
        hidden
        aria-hidden="true"
        aria-current={true}
        {...{ 'aria-expanded': false }}
        data-soft=""
        data-open={true}
        title={undefined}
      >
        <a href="/patients?q=a&kind=order" data-soft="stay">
          It’s <strong>due</strong>
        </a>
        <label htmlFor="b">B</label>
        <time dateTime="2026-11-25">today</time>
      </p>,
    );
  });

  it('spells every attribute of SVG as React does', () => {
    for (const name of SVG_ATTRIBUTES) asReact(<g {...{ [name]: 'a' }} />);
  });

  it('escapes every text and attribute', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.string({ unit: 'grapheme' }), (one, other) => {
        asReact(
          <p title={one} data-of={other}>
            {other}
            <b>{one}</b>
          </p>,
        );
      }),
      { seed: 7, numRuns: 2000 },
    );
  });

  it('refuses what acts, waits, is styled by attribute or runs in the browser', () => {
    const inBrowser = Object.assign(() => null, { $$typeof: Symbol.for('react.client.reference') }) as unknown as () => null;
    const InBrowser = inBrowser;
    const Waits = (async () => <p>late</p>) as unknown as () => ReactNode;
    for (const node of [
      <button key="a" type="button">
        Go
      </button>,
      <input key="b" />,
      <p key="c" {...{ onClick: () => undefined }} />,
      <p key="d" style={{ color: 'red' }} />,
      <InBrowser key="e" />,
      <Waits key="f" />,
      <p key="g" {...{ dangerouslySetInnerHTML: { __html: '<b>' } }} />,
    ])
      expect(() => markupOf(node)).toThrow('markup');
  });
});
