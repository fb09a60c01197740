import type { Side } from '@/lib/ladder/limb';
import { halfWidth, outlinePath, round, yOf } from './outline-path';

type Props = {
  readonly side: Side;
  readonly heightsMm: readonly number[];
  readonly girthsMm: readonly number[];
  readonly landmarksMm?: readonly number[];
  readonly heightPx: number;
  /** Widens the glyph so that a small one can be told apart; the large outline is always in true proportion. */
  readonly widen?: number;
};

const MARGIN = 6;

/** A small outline of one limb without figures, for a list row or beside a verdict. Hidden from screen readers: words stand beside it. */
export function LimbGlyph({ side, heightsMm, girthsMm, landmarksMm = [], heightPx, widen = 1 }: Props) {
  const all = [...heightsMm, ...landmarksMm];
  const top = Math.max(...all);
  const bottom = Math.min(...all);
  if (heightsMm.length < 2 || !(top > bottom)) return null;
  const scale = Math.min(heightPx / (top - bottom), heightPx / 2 / halfWidth(Math.max(...girthsMm), 1) / widen);
  const half = halfWidth(Math.max(...girthsMm), scale) * widen;
  const frame = { scale, centreX: half + MARGIN, zeroY: MARGIN + top * scale };
  const path = outlinePath({ heightsMm, girthsMm: girthsMm.map((girth) => girth * widen) }, frame);
  const width = round(2 * (half + MARGIN));
  const height = round((top - bottom) * scale + 2 * MARGIN);
  return (
    <svg className="limb-glyph" viewBox={`0 0 ${width} ${height}`} width={width} height={height} aria-hidden="true">
      <g className={`limb ${side}`}>
        <path className="limb-fill" d={path.fill} />
        <path className="limb-edge" d={path.edges} />
        {landmarksMm.map((at) => (
          <line key={at} className="landmark-line" x1={0} x2={width} y1={round(yOf(at, frame))} y2={round(yOf(at, frame))} />
        ))}
      </g>
    </svg>
  );
}
