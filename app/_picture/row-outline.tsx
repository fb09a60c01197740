import { StaticMarkup } from '@/app/_shell/static-markup';
import type { Side } from '@/lib/ladder/limb';
import { halfWidth, outlinePath, round, yOf } from './outline-path';
import styles from './picture.module.css';
import { stretchedGirths, stretchFor } from './stretched-change';

const LIMB_PX = 150;
/** From the limb to the table: here each rung's line bends to its row. */
const LEADER = 44;
const EDGE = 6;
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
  readonly rows: number;
  /** Height of a row of the table, px: its style sets every row to the same. */
  readonly rowPx: number;
};

/**
 * The limb beside its rows of figures, in true proportion: a line leads from each rung to its row; an earlier ladder lies behind, room to
 * let out round it. Hidden from screen readers: the table beside it has every figure.
 */
export function RowOutline({ side, rungs, landmarksMm, rows, rowPx }: Props) {
  const rising = [...rungs].sort((one, other) => one.placeMm - other.placeMm);
  const heightsMm = rising.map((rung) => rung.placeMm);
  const girthsMm = rising.map((rung) => rung.girthMm);
  const places = [...heightsMm, ...landmarksMm];
  const top = Math.max(...places);
  const bottom = Math.min(...places);
  if (rising.length < 2 || !(top > bottom)) return null;
  const height = rows * rowPx;
  const scale = Math.min((height - 2 * EDGE) / (top - bottom), LIMB_PX / 2 / halfWidth(Math.max(...girthsMm), 1));
  const centreX = LIMB_PX / 2 + EDGE;
  const frame = { scale, centreX, zeroY: height / 2 + ((top + bottom) / 2) * scale };
  const path = outlinePath({ heightsMm, girthsMm }, frame);
  const width = LIMB_PX + 2 * EDGE + LEADER;
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
            d={`M${round(centreX - halfWidth(rung.girthMm, scale))} ${round(yOf(rung.placeMm, frame))}H${LIMB_PX + 2 * EDGE}L${width - 8} ${(rung.row + 0.5) * rowPx}H${width}`}
          />
        ))}
        {known.length > 1 && <path className={styles.earlier} d={beforePath(known, frame)} />}
        {roomy.length > 1 && <path className={styles.roomEdge} d={roomPath(roomy, frame)} />}
        <path className={styles.limbEdge} d={path.edges} />
        <path className={styles.limbGap} d={path.dotted} />
        {landmarksMm.map((at) => (
          <path key={at} className={styles.landmarkLine} d={`M0 ${round(yOf(at, frame))}H${LIMB_PX + 2 * EDGE}`} />
        ))}
      </g>
    </StaticMarkup>
  );
}

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
