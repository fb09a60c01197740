import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { LIMBS, limbInWords } from '@/lib/ladder/limb';
import { marksOnOutline } from '@/lib/observations/marks-on-outline';
import type { KeptObservation } from '@/lib/observations/observation';
import type { LimbSide } from '@/lib/record/patient-record';
import { heightOnLimb } from '@/lib/trend/limb-series';
import styles from './looked.module.css';

const [WIDTH, HEIGHT] = [110, 220] as const;

type Props = {
  readonly analysis: PatientAnalysis;
  readonly limb: LimbSide;
  readonly marks: readonly KeptObservation[];
  /** Number of each mark by its id, the same as in the table below. */
  readonly numbers: ReadonlyMap<string, number>;
};

/**
 * Marks that are still there, on the outline of a limb as it was last measured; on a plain bar from landmark to landmark where it was not, or
 * where one of both landmarks is not known on that ladder. Numbers are those of the table below.
 */
export function MarksPicture({ analysis, limb, marks, numbers }: Props) {
  const placed = marks.flatMap(({ observationId, place }) => (place ? [{ observationId, along: place.along }] : []));
  const along = placed.map((one) => one.along);
  const outline = outlineWith(along, analysis, limb);
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
      <path d={outline ? outlinePath(outline.rungs.map(y), outline.girthsMm) : `M35 ${y(0)}V${y(1)}M75 ${y(0)}V${y(1)}`} />
      {placed.map(({ observationId }, at) => {
        const middle = y((outline?.marks ?? along)[at] ?? 0);
        return (
          <g key={observationId}>
            <path className={styles.mark} d={`M55 ${middle - 7}l7 7l-7 7l-7-7Z`} />
            <text x={70} y={middle + 5} fontSize="13">
              {numbers.get(observationId)}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** The newest ladder of a limb with marks on its scale; undefined where there is none, or one that does not know both landmarks. */
function outlineWith(along: readonly number[], { limbs }: PatientAnalysis, { limb, side }: LimbSide) {
  const newest = limbs.find(({ series }) => series.limb === limb && series.side === side)?.series.visits.at(-1);
  if (!newest) return undefined;
  const [far, , near] = LIMBS[limb].landmarks;
  const { line, landmarks } = newest.placed;
  const [farMm, nearMm] = [landmarks.get(far)?.placeMm, landmarks.get(near)?.placeMm];
  const lengthMm = farMm === undefined || nearMm === undefined ? undefined : nearMm - farMm;
  const heightsMm = line.placesMm.map((place) => heightOnLimb(newest, place));
  const scaled = marksOnOutline(along, heightsMm, lengthMm);
  return scaled && { ...scaled, girthsMm: line.girthsMm };
}

/** Both edges of a limb from its girths, each as wide as a round limb of that girth. */
function outlinePath(ys: readonly number[], girthsMm: readonly number[]): string {
  const widest = girthsMm.reduce((most, girth) => Math.max(most, girth), 1);
  const half = (girth: number) => (girth / widest) * 40;
  const edge = (sign: 1 | -1) =>
    ys.map((y, at) => `${at === 0 ? 'M' : 'L'}${(55 + sign * half(girthsMm[at] ?? 0)).toFixed(1)} ${y.toFixed(1)}`).join('');
  return edge(-1) + edge(1);
}
