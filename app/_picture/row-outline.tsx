import { StaticMarkup } from '@/app/_markup/static-markup';
import type { Side } from '@/lib/ladder/limb';
import { halfWidth, outlinePath, round, yOf } from './outline-path';
import styles from './picture.module.css';
import { stretchedGirths, stretchFor } from './stretched-change';

/** Width of the drawing, px: the limb at its widest, and from there to the table, where each rung's line bends to its row. */
const ROOMY = { limbPx: 150, leaderPx: 44 };
const NARROW = { limbPx: 116, leaderPx: 30 };
const EDGE = 6;
/** Height of a landmark’s name over its line. */
const NAME_PX = 12;
/** Room to let out is a few millimetres of girth: drawn larger so that it shows. */
const ROOM_STRETCH = 4;

/** A rung of the drawing: its place along the limb and its girth, mm, its row of the table from the top, and what else is known there. */
export type DrawnRung = {
  readonly placeMm: number;
  readonly girthMm: number;
  readonly row: number;
  readonly beforeMm: number | null;
  readonly roomMm: number | null;
};

type Props = {
  readonly side: Side;
  /** The trunk's end first, as the table has them. */
  readonly rungs: readonly DrawnRung[];
  readonly landmarksMm: readonly number[];
  /** What the landmarks are called, in the order of their places; left out where the table says it. */
  readonly landmarkNames?: readonly string[];
  /** Beside a table that needs the width. */
  readonly narrow?: boolean;
  readonly rows: number;
  /** Height of a row of the table, px: its style sets every row to the same. */
  readonly rowPx: number;
};

/**
 * The limb beside its rows of figures, in true proportion: a line leads from each rung to its row; an earlier ladder lies behind, room to
 * let out round it. Hidden from screen readers: the table beside it has every figure.
 */
export function RowOutline({ side, rungs, landmarksMm, landmarkNames = [], rows, rowPx, narrow = false }: Props) {
  const { limbPx, leaderPx } = narrow ? NARROW : ROOMY;
  const rising = [...rungs].sort((one, other) => one.placeMm - other.placeMm);
  const heightsMm = rising.map((rung) => rung.placeMm);
  const girthsMm = rising.map((rung) => rung.girthMm);
  const places = [...heightsMm, ...landmarksMm];
  const top = Math.max(...places);
  const bottom = Math.min(...places);
  if (rising.length < 2 || !(top > bottom)) return null;
  const height = rows * rowPx;
  const scale = Math.min((height - 2 * EDGE) / (top - bottom), limbPx / 2 / halfWidth(Math.max(...girthsMm), 1));
  const centreX = limbPx / 2 + EDGE;
  const frame = { scale, centreX, zeroY: height / 2 + ((top + bottom) / 2) * scale };
  const path = outlinePath({ heightsMm, girthsMm }, frame);
  const width = limbPx + 2 * EDGE + leaderPx;
  const known = rising.filter((rung) => rung.beforeMm !== null);
  const roomy = rising.filter((rung) => rung.roomMm !== null && rung.roomMm > 0);
  return (
    <StaticMarkup
      as="svg"
      className={`${styles.rowOutline} ${styles.limbGlyph}`}
      data-drawing="row-outline"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      aria-hidden="true"
    >
      <g className={styles.limb} data-side={side}>
        <path className={styles.limbFill} d={path.fill} />
        {rising.map((rung) => (
          <path
            key={rung.placeMm}
            className={styles.rungLine}
            d={`M${round(centreX - halfWidth(rung.girthMm, scale))} ${round(yOf(rung.placeMm, frame))}H${limbPx + 2 * EDGE}L${width - 8} ${(rung.row + 0.5) * rowPx}H${width}`}
          />
        ))}
        {known.length > 1 && <path className={styles.earlier} d={beforePath(known, frame)} />}
        {roomy.length > 1 && <path className={styles.roomEdge} d={roomPath(roomy, frame)} />}
        <path className={styles.limbEdge} d={path.edges} />
        <path className={styles.limbGap} d={path.dotted} />
        {landmarksMm.map((at) => (
          <path key={at} className={styles.landmarkLine} d={`M0 ${round(yOf(at, frame))}H${limbPx + 2 * EDGE}`} />
        ))}
        {landmarkNames.map((name, index) => (
          <text
            key={name}
            className={styles.rowLandmark}
            x={centreX}
            y={clampedTo(yOf(landmarksMm[index] ?? 0, frame) - 5, NAME_PX, height - 3)}
            textAnchor="middle"
          >
            {name}
          </text>
        ))}
      </g>
    </StaticMarkup>
  );
}

const clampedTo = (y: number, least: number, most: number): number => round(Math.min(Math.max(y, least), most));

type Frame = Parameters<typeof outlinePath>[1];

function beforePath(known: readonly DrawnRung[], frame: Frame): string {
  const now = known.map((rung) => rung.girthMm);
  const before = known.map((rung) => rung.beforeMm ?? rung.girthMm);
  const girthsMm = stretchedGirths(now, before, stretchFor(now, before, frame.scale));
  return outlinePath({ heightsMm: known.map((rung) => rung.placeMm), girthsMm }, frame).edges;
}

function roomPath(roomy: readonly DrawnRung[], frame: Frame): string {
  const girthsMm = roomy.map((rung) => rung.girthMm + ROOM_STRETCH * (rung.roomMm ?? 0));
  return outlinePath({ heightsMm: roomy.map((rung) => rung.placeMm), girthsMm }, frame).edges;
}

/** What the lines of the drawing are, for the foot of the table. */
export function outlineInWords(rungs: readonly DrawnRung[]): string {
  const thin = rungs.some((rung) => rung.beforeMm !== null) ? ' Thin: the last order’s ladder, its change stretched so that it shows.' : '';
  const room = rungs.some((rung) => (rung.roomMm ?? 0) > 0) ? ` Dashed outside: room to let out, drawn ×${ROOM_STRETCH}.` : '';
  return `Outline in true proportion.${thin}${room}`;
}
