import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it, vi } from 'vitest';
import { oncePer } from '@/app/_markup/once-per';
import { rememberedMarkup, StaticMarkup } from '@/app/_markup/static-markup';

function Panel({ figure, children }: { figure: number; children?: ReactNode }) {
  return (
    <section className="panel" aria-labelledby="a-head">
      <h2 id="a-head">{`Girth & height ${figure}`}</h2>
      <StaticMarkup as="svg" viewBox="0 0 1 1">
        <path d="M0 0" strokeWidth={figure} />
      </StaticMarkup>
      {children}
    </section>
  );
}

const shown = (node: ReactNode) => renderToStaticMarkup(node);

describe('markup that is remembered of a thing', () => {
  it('is what React itself writes of the part, its own markup inside too', () => {
    const written = rememberedMarkup({}, 'a', () => (
      <Panel figure={2}>
        <p>&lt;none&gt;</p>
      </Panel>
    ));
    expect(shown(written)).toBe(
      shown(
        <Panel figure={2}>
          <p>&lt;none&gt;</p>
        </Panel>,
      ),
    );
    const table = (
      <StaticMarkup as="table" className="worklist">
        <caption>“cm”</caption>
      </StaticMarkup>
    );
    expect(shown(rememberedMarkup({}, 'b', () => table))).toBe(shown(table));
    expect(rememberedMarkup({}, 'c', () => null)).toBeNull();
  });

  it('is written once for one thing and one name, and anew for another thing: what a write leaves is another analysis', () => {
    const part = vi.fn((figure: number) => <Panel figure={figure} />);
    const [before, after] = [{}, {}];
    const first = shown(rememberedMarkup(before, 'a', () => part(1)));
    expect(shown(rememberedMarkup(before, 'a', () => part(1)))).toBe(first);
    expect(part).toHaveBeenCalledTimes(1);
    expect(shown(rememberedMarkup(after, 'a', () => part(2)))).toContain('height 2');
    expect(shown(rememberedMarkup(before, 'b', () => part(3)))).toContain('height 3');
    expect(part).toHaveBeenCalledTimes(3);
  });

  it('keeps no more of a thing than is bounded', () => {
    const of = {};
    const make = vi.fn(() => 1);
    for (let turn = 0; turn < 2; turn++) for (let name = 0; name < 100; name++) oncePer(of, String(name), make);
    expect(make).toHaveBeenCalledTimes(100 + 100 - 32);
  });
});
