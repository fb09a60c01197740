import { showLength } from '@/lib/units/show-length';
import type { LimbPicture } from './limb-picture';
import { type Frame, round, yOf } from './outline-path';

const HALF = 16;
const CLEAR_OF_LANDMARK = 13;

/** The ruler between the limbs: half units, rung places with their numbers, and the landmarks across limbs and tape. */
export function OutlineTape({
  picture,
  frame,
  centreX,
  fromX,
  toX,
}: {
  picture: LimbPicture;
  frame: Frame;
  centreX: number;
  fromX: number;
  toX: number;
}) {
  const rungs = (picture.limbs.find((limb) => limb.affected) ?? picture.limbs[0])?.heightsMm ?? [];
  const top = Math.max(...rungs, ...picture.landmarks.map((landmark) => landmark.heightMm));
  const bottom = Math.min(...rungs, ...picture.landmarks.map((landmark) => landmark.heightMm));
  const clear = (height: number): boolean =>
    picture.landmarks.every((landmark) => Math.abs(yOf(landmark.heightMm, frame) - yOf(height, frame)) >= CLEAR_OF_LANDMARK);
  return (
    <g className="outline-tape">
      <rect className="tape-body" x={centreX - HALF} width={2 * HALF} y={yOf(top, frame)} height={(top - bottom) * frame.scale} />
      <path className="tape-ticks" d={ticks(bottom, top, picture, frame, centreX)} />
      {rungs.map((height) => (
        <g key={height}>
          <path
            className="tape-ticks"
            d={`M${centreX - HALF} ${round(yOf(height, frame))}h6M${centreX + HALF} ${round(yOf(height, frame))}h-6`}
          />
          {clear(height) && (
            <text className="tape-number" x={centreX} y={yOf(height, frame) + 4} textAnchor="middle">
              {showLength(height, picture.unit)}
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
  landmark: LimbPicture['landmarks'][number];
  picture: LimbPicture;
  frame: Frame;
  centreX: number;
  fromX: number;
  toX: number;
  atEnd: 'top' | 'bottom' | null;
};

function Landmark({ landmark, picture, frame, centreX, fromX, toX, atEnd }: LandmarkProps) {
  const y = round(yOf(landmark.heightMm, frame));
  const place = showLength(landmark.heightMm, picture.unit);
  const said = `${landmark.name}${landmark.heightMm === 0 ? '' : ` ${place}`}`;
  return (
    <g className={landmark.inferred ? 'landmark inferred' : 'landmark'}>
      <line className="landmark-line" x1={fromX} x2={toX} y1={y} y2={y} />
      {atEnd === null ? (
        <>
          <rect className="landmark-box" x={centreX - said.length * 3.4 - 5} width={said.length * 6.8 + 10} y={y - 9} height={18} rx={2} />
          <text className="landmark-name" x={centreX} y={y + 4} textAnchor="middle">
            {said}
          </text>
        </>
      ) : (
        <>
          <text
            className="landmark-name"
            x={centreX}
            y={atEnd === 'top' ? y - (landmark.isZero || landmark.inferred ? 18 : 6) : y + 16}
            textAnchor="middle"
          >
            {said}
          </text>
          {(landmark.isZero || landmark.inferred) && (
            <text className="landmark-note" x={centreX} y={atEnd === 'top' ? y - 5 : y + 31} textAnchor="middle">
              {landmark.inferred ? 'inferred' : picture.zeroWords}
            </text>
          )}
        </>
      )}
    </g>
  );
}

function ticks(bottom: number, top: number, picture: LimbPicture, frame: Frame, centreX: number): string {
  const step = picture.unit === 'in' ? 12.7 : 10;
  const marks: string[] = [];
  for (let height = Math.ceil(bottom / step) * step; height <= top; height += step) {
    const y = round(yOf(height, frame));
    marks.push(`M${centreX - HALF} ${y}h3M${centreX + HALF} ${y}h-3`);
  }
  return marks.join('');
}
