import clsx from 'clsx';
import { keepApart } from '@/app/_chart/keep-apart';
import { showTapedLength } from '@/lib/units/show-length';
import type { LimbPicture, PictureLimb, PictureStrip } from './limb-picture';
import { type Frame, halfWidth, outlinePath, round, yOf } from './outline-path';
import styles from './picture.module.css';
import { stretchedGirths } from './stretched-change';

/** Figures of rungs that lie closer than this are set apart, each with its hairline to its own rung. */
const FIGURE_STEP = 14;

type Props = {
  readonly limb: PictureLimb;
  readonly strips: readonly PictureStrip[];
  readonly picture: LimbPicture;
  readonly frame: Frame;
  readonly figuresX: number;
  readonly anchor: 'end' | 'start';
  readonly stretch: number;
  readonly name: string;
};

/** One limb of the outline: fill, edges, earlier visits, figures outside with hairlines to the edge, doubts on the edge. */
export function OneLimb(props: Props) {
  const { limb, strips, picture, frame, figuresX, anchor, stretch, name } = props;
  const path = outlinePath(
    {
      heightsMm: limb.heightsMm,
      girthsMm: limb.girthsMm,
      doubtful: limb.asked,
    },
    frame,
  );
  const inner = anchor === 'end' ? 1 : -1;
  const figureY = keepApart(
    limb.heightsMm.map((height) => yOf(height, frame)),
    FIGURE_STEP,
  );
  const outside = round(frame.centreX - inner * halfWidth(Math.max(...limb.girthsMm), frame.scale));
  const word = limb.side === 'left' ? 'Left' : 'Right';
  return (
    <g className={styles.limb} data-side={limb.side}>
      <text className={styles.limbName} x={frame.centreX} y={14} textAnchor="middle">{`${word} ${picture.limb}`}</text>
      <text className={styles.limbNote} x={frame.centreX} y={30} textAnchor="middle">
        {limb.affected ? 'affected' : 'other limb'}
      </text>
      <path className={styles.limbFill} d={path.fill} />
      {strips.map((strip) => (
        <Mesh key={strip.piece} strip={strip} limb={limb} frame={frame} fill={path.fill} name={name} />
      ))}
      {limb.heightsMm.map((height, rung) => (
        <path
          key={height}
          className={styles.rungLine}
          d={`M${figuresX + inner * 4} ${figureY[rung]}L${outside - inner * 6} ${round(yOf(height, frame))}H${round(frame.centreX + inner * halfWidth(limb.girthsMm[rung] as number, frame.scale))}`}
        />
      ))}
      {limb.earlier.map((line) => (
        <EarlierEdges key={line.kind} limb={limb} girthsMm={line.girthsMm} kind={line.kind} frame={frame} stretch={stretch} />
      ))}
      <path className={styles.limbEdge} d={path.edges} />
      <path className={styles.limbGap} d={path.dotted} />
      <OpenEnds limb={limb} picture={picture} frame={frame} />
      {limb.heightsMm.map((height, rung) => (
        <text
          key={height}
          className={clsx(styles.figure, limb.asked.includes(rung) && styles.asked)}
          x={figuresX}
          y={(figureY[rung] as number) + 4}
          textAnchor={anchor}
        >
          {showTapedLength(limb.girthsMm[rung] as number, picture.unit)}
        </text>
      ))}
      {[...limb.asked, ...limb.kept].map((rung) => (
        <Diamond
          key={rung}
          x={frame.centreX - inner * halfWidth(limb.girthsMm[rung] as number, frame.scale)}
          y={yOf(limb.heightsMm[rung] as number, frame)}
          kept={limb.kept.includes(rung)}
        />
      ))}
    </g>
  );
}

function EarlierEdges({
  limb,
  girthsMm,
  kind,
  frame,
  stretch,
}: {
  limb: PictureLimb;
  girthsMm: readonly (number | null)[];
  kind: string;
  frame: Frame;
  stretch: number;
}) {
  const taped = limb.heightsMm.flatMap((height, rung) =>
    girthsMm[rung] === null
      ? []
      : [
          {
            height,
            now: limb.girthsMm[rung] as number,
            before: girthsMm[rung] as number,
          },
        ],
  );
  const girths = stretchedGirths(
    taped.map((one) => one.now),
    taped.map((one) => one.before),
    stretch as 1 | 2 | 3 | 4,
  );
  const path = outlinePath({ heightsMm: taped.map((one) => one.height), girthsMm: girths }, frame);
  return <path className={styles.earlier} data-kind={kind === 'first' ? 'first' : 'cut'} d={path.edges} />;
}

/** From the outer rungs to a known zero or landmark: two dotted lines straight on; nothing is drawn beyond the tape. */
function OpenEnds({ limb, picture, frame }: { limb: PictureLimb; picture: LimbPicture; frame: Frame }) {
  const first = limb.heightsMm[0] as number;
  const last = limb.heightsMm.at(-1) as number;
  const below = Math.min(...picture.landmarks.map((landmark) => landmark.heightMm));
  const above = Math.max(...picture.landmarks.map((landmark) => landmark.heightMm));
  const ends: { from: number; to: number; girth: number }[] = [];
  if (below < first) ends.push({ from: first, to: below, girth: limb.girthsMm[0] as number });
  if (above > last) ends.push({ from: last, to: above, girth: limb.girthsMm.at(-1) as number });
  const d = ends.flatMap(({ from, to, girth }) =>
    [-1, 1].map(
      (way) => `M${round(frame.centreX + way * halfWidth(girth, frame.scale))} ${round(yOf(from, frame))}V${round(yOf(to, frame))}`,
    ),
  );
  return <path className={styles.openEnd} d={d.join('')} />;
}

type MeshProps = { strip: PictureStrip; limb: PictureLimb; frame: Frame; fill: string; name: string };

function Mesh({ strip, limb, frame, fill, name }: MeshProps) {
  const clip = `${name}-${limb.side}-${strip.piece.replace(/\W+/g, '-')}`;
  const top = yOf(strip.toMm, frame);
  return (
    <>
      <clipPath id={clip}>
        <path d={fill} />
      </clipPath>
      <rect
        className={styles.mesh}
        clipPath={`url(#${clip})`}
        x={round(frame.centreX - 160)}
        width={320}
        y={top}
        height={Math.max(yOf(strip.fromMm, frame) - top, 0)}
        fill={`url(#${name}-mesh-${limb.side})`}
      />
    </>
  );
}

function Diamond({ x, y, kept }: { x: number; y: number; kept: boolean }) {
  return (
    <g className={styles.diamond}>
      <path d={`M${round(x)} ${round(y - 6)}l6 6l-6 6l-6-6Z`} />
      {kept && <circle cx={round(x)} cy={round(y)} r={1.6} />}
    </g>
  );
}
