import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { LIMBS, limbInWords } from '@/lib/ladder/limb';
import { marksOnOutline } from '@/lib/observations/marks-on-outline';
import type { KeptObservation } from '@/lib/observations/observation';
import type { LimbSide } from '@/lib/record/patient-record';
import { heightOnLimb } from '@/lib/trend/limb-series';
import { limbEdges } from './limb-edges';
import styles from './looked.module.css';

const [WIDTH, HEIGHT] = [110, 220] as const;

type Props = {
  readonly analysis: PatientAnalysis;
  readonly limb: LimbSide;
  readonly marks: readonly Pick<KeptObservation, 'observationId' | 'place'>[];
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
      <path d={outline ? limbEdges(outline.rungs.map(y), outline.girthsMm) : `M35 ${y(0)}V${y(1)}M75 ${y(0)}V${y(1)}`} />
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
