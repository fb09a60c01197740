import clsx from 'clsx';
import { placeOnTape } from '@/lib/ladder/place-on-tape';
import type { LimbPicture, PictureLandmark } from './limb-picture';
import { type Frame, round, yOf } from './outline-path';
import styles from './picture.module.css';

const HALF = 20;
const CLEAR_OF_LANDMARK = 13;
const LINE = 14;
/** A name with its place stands in one line up to this many letters, otherwise in two: there is only so much room between the limbs. */
const ONE_LINE = 11;

/** What a tape is drawn from. */
type TapePicture = Pick<LimbPicture, 'unit' | 'ruler' | 'landmarks'> & {
  readonly limbs: readonly { affected: boolean; heightsMm: readonly number[] }[];
};

/** The ruler between the limbs: half units, rung places with their numbers, and the landmarks across limbs and tape. */
export function OutlineTape({
  picture,
  frame,
  centreX,
  fromX,
  toX,
}: {
  picture: TapePicture;
  frame: Frame;
  centreX: number;
  fromX: number;
  toX: number;
}) {
  const rungs = (picture.limbs.find((limb) => limb.affected) ?? picture.limbs[0])?.heightsMm ?? [];
  const top = Math.max(...rungs, ...picture.landmarks.map((landmark) => landmark.heightMm));
  const bottom = Math.min(...rungs, ...picture.landmarks.map((landmark) => landmark.heightMm));
  const clear = (height: number): boolean =>
    picture.landmarks.every((landmark) => {
      const inside = landmark.heightMm < top && landmark.heightMm > bottom;
      const tall = inside && landmark.name.length + 4 > ONE_LINE ? LINE / 2 : 0;
      return Math.abs(yOf(landmark.heightMm, frame) - yOf(height, frame)) >= CLEAR_OF_LANDMARK + tall;
    });
  return (
    <g>
      <rect
        className={styles.tapeBody}
        x={round(centreX - HALF)}
        width={2 * HALF}
        y={round(yOf(top, frame))}
        height={round((top - bottom) * frame.scale)}
      />
      <path className={styles.tapeTicks} d={ticks(bottom, top, picture, frame, centreX)} />
      {rungs.map((height) => (
        <g key={height}>
          <path className={styles.tapeTicks} d={`M${round(centreX - HALF)} ${round(yOf(height, frame))}h6m${2 * HALF - 12} 0h6`} />
          {clear(height) && (
            <text className={styles.tapeNumber} x={round(centreX)} y={round(yOf(height, frame) + 4)} textAnchor="middle">
              {placeOnTape(height, picture.ruler)}
            </text>
          )}
        </g>
      ))}
      {picture.landmarks.map((landmark) => (
        <Landmark
          key={landmark.name}
          landmark={landmark}
          picture={picture}
          frame={frame}
          centreX={centreX}
          fromX={fromX}
          toX={toX}
          atEnd={landmark.heightMm === bottom ? 'bottom' : landmark.heightMm === top ? 'top' : null}
        />
      ))}
    </g>
  );
}

type LandmarkProps = {
  landmark: PictureLandmark;
  picture: TapePicture;
  frame: Frame;
  centreX: number;
  fromX: number;
  toX: number;
  atEnd: 'top' | 'bottom' | null;
};

function Landmark({ landmark, picture, frame, centreX, fromX, toX, atEnd }: LandmarkProps) {
  const y = round(yOf(landmark.heightMm, frame));
  const place = placeOnTape(landmark.heightMm, picture.ruler);
  const whole = `${landmark.name}${landmark.isZero ? '' : ` ${place}`}`;
  const lines = landmark.isZero || whole.length <= ONE_LINE ? [whole] : [landmark.name, place];
  if (landmark.inferred && atEnd === null) lines.push('inferred');
  const noted = landmark.inferred ? 'inferred' : landmark.isZero ? `zero, measured ${picture.ruler.direction}ward` : null;
  const first = { top: y - 6 - LINE * (lines.length - (noted ? 0 : 1)), bottom: y + 16, middle: y + 4 - (LINE / 2) * (lines.length - 1) };
  const textY = (line: number): number => first[atEnd ?? 'middle'] + LINE * line;
  const widest = Math.max(...lines.map((line) => line.length)) * 6.8 + 10;
  return (
    <g className={clsx(styles.landmark, landmark.inferred && styles.inferred)}>
      <line className={styles.landmarkLine} x1={fromX} x2={toX} y1={y} y2={y} />
      {atEnd === null && (
        <rect
          className={styles.landmarkBox}
          x={round(centreX - widest / 2)}
          width={round(widest)}
          y={y - (LINE / 2) * lines.length - 2}
          height={LINE * lines.length + 4}
          rx={2}
        />
      )}
      {lines.map((line, index) => (
        <text key={line} className={styles.landmarkName} x={round(centreX)} y={textY(index)} textAnchor="middle">
          {line}
        </text>
      ))}
      {noted && atEnd !== null && (
        <text className={styles.landmarkNote} x={round(centreX)} y={textY(lines.length)} textAnchor="middle">
          {noted}
        </text>
      )}
    </g>
  );
}

function ticks(bottom: number, top: number, picture: TapePicture, frame: Frame, centreX: number): string {
  const step = picture.unit === 'in' ? 12.7 : 10;
  const { zeroMm } = picture.ruler;
  const left = round(centreX - HALF);
  const marks: string[] = [];
  for (let height = zeroMm + Math.ceil((bottom - zeroMm) / step) * step; height <= top; height += step) {
    const y = round(yOf(height, frame));
    marks.push(`M${left} ${y}h3m${2 * HALF - 6} 0h3`);
  }
  return marks.join('');
}
