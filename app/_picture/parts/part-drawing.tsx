import { StaticMarkup } from '@/app/_markup/static-markup';
import type { PartSide } from '@/lib/parts/measure';
import styles from '../picture.module.css';
import { tapeWay } from './tape-ways';
import { VIEWS, type ViewName } from './views';

type Props = {
  readonly side: PartSide;
  /** Ids of the measures whose tape is drawn; they are of one part. */
  readonly measures: readonly string[];
};

/** A part as it is looked at, with the way of the tape for each of these measures; one drawing for each view. Hidden from screen readers: every definition stands in words. */
export function PartDrawing({ side, measures }: Props) {
  const views = new Map<ViewName, string[]>();
  for (const id of measures) {
    const drawn = tapeWay(id);
    if (drawn) views.set(drawn.view, [...(views.get(drawn.view) ?? []), id]);
  }
  return [...views].map(([view, own]) => <OneView key={view} view={view} side={side} measures={own} />);
}

function OneView({ view, side, measures }: { view: ViewName; side: PartSide; measures: readonly string[] }) {
  const { width, height, outline } = VIEWS[view];
  const mirrored = side === 'left' ? `translate(${width} 0) scale(-1 1)` : undefined;
  const ways = measures.flatMap((id) => tapeWay(id)?.way ?? []);
  return (
    <StaticMarkup
      as="svg"
      className={`${styles.limbGlyph} ${styles.partDrawing}`}
      data-drawing={`part-${view}`}
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      aria-hidden="true"
    >
      <g className={styles.limb} data-side={side} transform={mirrored}>
        <path className={styles.limbFill} d={outline} />
        <path className={styles.limbEdge} d={outline} />
        <path className={styles.tapeBehind} d={ways.map(({ behind }) => behind).join('')} />
        <path className={styles.tapeWay} d={ways.map(({ seen }) => seen).join('')} />
      </g>
    </StaticMarkup>
  );
}
