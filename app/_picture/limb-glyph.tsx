import type { Side } from '@/lib/ladder/limb';
import { halfWidth, outlinePath, round, yOf } from './outline-path';
import styles from './picture.module.css';
import { type Stretch, stretchedGirths } from './stretched-change';

type Props = {
  readonly side: Side;
  readonly heightsMm: readonly number[];
  readonly girthsMm: readonly number[];
  readonly landmarksMm?: readonly number[];
  readonly heightPx: number;
  /** Widens the glyph so that a small one can be told apart; the large outline is always in true proportion. */
  readonly widen?: number;
  /** An earlier ladder on today's anatomy, at the same heights, its difference stretched by `stretch`; null where it was not taped. */
  readonly earlier?: readonly (number | null)[];
  readonly stretch?: Stretch;
  /** Rungs in doubt: the outline breaks there, and a diamond stands on its edge. */
  readonly asked?: readonly number[];
};

const MARGIN = 6;

/** A small outline of one limb without figures, for a list row or beside a verdict. Hidden from screen readers: words stand beside it. */
export function LimbGlyph({ side, heightsMm, girthsMm, landmarksMm = [], heightPx, widen = 1, earlier, stretch = 1, asked = [] }: Props) {
  const all = [...heightsMm, ...landmarksMm];
  const top = Math.max(...all);
  const bottom = Math.min(...all);
  if (heightsMm.length < 2 || !(top > bottom)) return null;
  const scale = Math.min(heightPx / (top - bottom), heightPx / 2 / halfWidth(Math.max(...girthsMm), 1) / widen);
  const half = halfWidth(Math.max(...girthsMm), scale) * widen;
  const frame = { scale, centreX: half + MARGIN, zeroY: MARGIN + top * scale };
  const path = outlinePath({ heightsMm, girthsMm: girthsMm.map((girth) => girth * widen), doubtful: asked }, frame);
  const before = earlier && outlinePath(earlierOutline(heightsMm, girthsMm, earlier, stretch), frame);
  const width = round(2 * (half + MARGIN));
  const height = round((top - bottom) * scale + 2 * MARGIN);
  return (
    <svg
      className={styles.limbGlyph}
      data-drawing="glyph"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      aria-hidden="true"
    >
      <g className={styles.limb} data-side={side}>
        <path className={styles.limbFill} d={path.fill} />
        {before && <path className={styles.earlier} d={before.edges} />}
        <path className={styles.limbEdge} d={path.edges} />
        <path className={styles.limbGap} d={path.dotted} />
        {landmarksMm.map((at) => (
          <line key={at} className={styles.landmarkLine} x1={0} x2={width} y1={round(yOf(at, frame))} y2={round(yOf(at, frame))} />
        ))}
        {asked.map((rung) => (
          <path
            key={rung}
            className={styles.diamond}
            d={`M${round(frame.centreX + halfWidth((girthsMm[rung] as number) * widen, scale))} ${round(yOf(heightsMm[rung] as number, frame) - 5)}l5 5l-5 5l-5-5Z`}
          />
        ))}
      </g>
    </svg>
  );
}

function earlierOutline(heightsMm: readonly number[], girthsMm: readonly number[], earlier: readonly (number | null)[], stretch: Stretch) {
  const taped = heightsMm.flatMap((height, rung) => {
    const before = earlier[rung];
    return before === null || before === undefined ? [] : [{ height, now: girthsMm[rung] as number, before }];
  });
  const girths = stretchedGirths(
    taped.map((one) => one.now),
    taped.map((one) => one.before),
    stretch,
  );
  return { heightsMm: taped.map((one) => one.height), girthsMm: girths };
}
