import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { limbInWords } from '@/lib/ladder/limb';
import type { Observation } from '@/lib/observations/observation';
import type { LimbSide } from '@/lib/record/patient-record';
import { outlineFor } from '@/lib/schedule/patient-work';
import styles from './looked.module.css';

const [WIDTH, HEIGHT] = [110, 220] as const;

type Props = { readonly analysis: PatientAnalysis; readonly limb: LimbSide; readonly marks: readonly Observation[] };

/** Marks that are still there, on the outline of a limb as it was last measured; a plain bar where it was not. Numbers are those of the list beside it. */
export function MarksPicture({ analysis, limb, marks }: Props) {
  const measured = analysis.limbs.some(({ series }) => series.limb === limb.limb && series.side === limb.side);
  const outline = measured ? outlineFor(limb, analysis) : null;
  const y = (share: number) => HEIGHT - 8 - share * (HEIGHT - 16);
  return (
    <svg
      className={styles.limb}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      height={HEIGHT}
      role="img"
      aria-label={`${limbInWords(limb.limb, limb.side)}, ${marks.length === 1 ? 'one mark still there' : `${marks.length} marks still there`}`}
    >
      <path d={outline ? outlinePath(outline.heightsMm, outline.girthsMm, y) : `M35 ${y(0)}V${y(1)}M75 ${y(0)}V${y(1)}`} />
      {marks.map(({ place }, at) => {
        if (!place) return null;
        const middle = y(place.along);
        return (
          <g key={`${place.along} ${marks[at]?.day} ${marks[at]?.choice}`}>
            <path className={styles.mark} d={`M55 ${middle - 7}l7 7l-7 7l-7-7Z`} />
            <text x={70} y={middle + 5} fontSize="13">
              {at + 1}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** Both edges of a limb from its girths, each as wide as a round limb of that girth. */
function outlinePath(heightsMm: readonly number[], girthsMm: readonly number[], y: (share: number) => number): string {
  const [low, high] = [Math.min(...heightsMm), Math.max(...heightsMm)];
  const widest = Math.max(...girthsMm);
  const half = (girth: number) => (girth / widest) * 40;
  const share = (height: number) => (high === low ? 0.5 : (height - low) / (high - low));
  const edge = (sign: 1 | -1) =>
    heightsMm
      .map((height, at) => `${at === 0 ? 'M' : 'L'}${(55 + sign * half(girthsMm[at] ?? 0)).toFixed(1)} ${y(share(height)).toFixed(1)}`)
      .join('');
  return edge(-1) + edge(1);
}
