import type { PictureLandmark } from '@/app/_picture/limb-picture';
import { type Frame, halfWidth, outlinePath, round, yOf } from '@/app/_picture/outline-path';
import { OutlineTape } from '@/app/_picture/outline-tape';
import pictureStyles from '@/app/_picture/picture.module.css';
import type { SheetView, SideView } from '@/lib/entry/typed-view';
import { doubtfulPlaces, withoutRungs } from '@/lib/ladder/cross-examined';
import { LIMBS, placeInWords, type Side } from '@/lib/ladder/limb';
import { type TapedLine, tapedLine } from '@/lib/ladder/taped-line';
import styles from './sheet.module.css';

/** As wide as the side column of a tablet, so that no text is made smaller. */
const WIDTH = 238;
const TAPE = 40;
/** 12.5 px an inch; smaller where a long limb would not fit. */
const MOST_SCALE = 12.5 / 25.4;
const MOST_HEIGHT = 420;
/** Room for the names of the limbs, and for the landmark at the top below them. */
const HEAD = 62;

/** The limbs as far as they are measured, true to proportion; a doubtful rung stays out until it is answered. */
export function SheetOutline({ view, shown }: { view: SheetView; shown: Side }) {
  const { sheet, rows, sides } = view;
  const sign = sheet.direction === 'up' ? 1 : -1;
  const lead = sides.find((one) => one.side === shown) ?? sides[0];
  if (!lead) return null;
  const landmarks = landmarksOf(lead, view);
  const places = rows.flatMap((row) => {
    const at = row.at[lead.side];
    return at ? [(sign * at.nm) / 1e6] : [];
  });
  const all = [...places, ...landmarks.map((one) => one.heightMm), 0];
  const [bottom, top] = [Math.min(...all), Math.max(...all)];
  if (top <= bottom) return null;
  const widest = Math.max(1, ...sides.flatMap((one) => trustedLine(one, view).girthsMm));
  const scale = Math.min(MOST_SCALE, (MOST_HEIGHT - 108) / (top - bottom), ((WIDTH - TAPE) / 4 - 4) / halfWidth(widest, 1));
  const frame: Frame = { scale, centreX: 0, zeroY: HEAD + top * scale };
  const height = HEAD + (top - bottom) * scale + 40;
  const middle = WIDTH / 2;
  const picture = {
    unit: sheet.unit,
    ruler: { zero: sheet.zero, zeroMm: 0, direction: sheet.direction, unit: sheet.unit },
    landmarks,
    limbs: [{ affected: true, heightsMm: places }],
  };
  const words = `Outline of the ${sheet.limb}s as far as measured. The table holds the same figures.`;
  return (
    <figure className={`${pictureStyles.limbFigure} ${styles.sheetOutline}`} data-shown={shown}>
      <svg
        className={pictureStyles.limbOutline}
        viewBox={`0 0 ${WIDTH} ${round(height)}`}
        width={WIDTH}
        height={round(height)}
        role="img"
        aria-label={words}
      >
        <OutlineTape picture={picture} frame={frame} centreX={middle} fromX={4} toX={WIDTH - 4} />
        {sides.map((one) => (
          <OneSide
            key={one.side}
            one={one}
            view={view}
            frame={{ ...frame, centreX: one.side === 'right' ? (middle - TAPE / 2) / 2 : WIDTH - (middle - TAPE / 2) / 2 }}
          />
        ))}
      </svg>
      <figcaption>The outline grows as you measure. A doubtful rung stays out until you answer.</figcaption>
    </figure>
  );
}

function OneSide({ one, view, frame }: { one: SideView; view: SheetView; frame: Frame }) {
  const line = trustedLine(one, view);
  const taped = line.placesMm.map((heightMm, index) => ({ heightMm, girthMm: line.girthsMm[index] as number }));
  const name = `${one.side === 'left' ? 'Left' : 'Right'} ${view.sheet.limb}`;
  const path = outlinePath({ heightsMm: taped.map((rung) => rung.heightMm), girthsMm: taped.map((rung) => rung.girthMm) }, frame);
  const first = taped[0];
  return (
    <g className={pictureStyles.limb} data-side={one.side}>
      <text className={pictureStyles.limbName} x={frame.centreX} y={16} textAnchor="middle">
        {name}
      </text>
      <text className={pictureStyles.limbNote} x={frame.centreX} y={32} textAnchor="middle">
        {one.affected ? 'affected' : 'other limb'}
      </text>
      <path className={pictureStyles.limbFill} d={path.fill} />
      {taped.map((rung) => (
        <line
          key={rung.heightMm}
          className={pictureStyles.rungLine}
          x1={round(frame.centreX - Math.max(halfWidth(rung.girthMm, frame.scale), 8) - 14)}
          x2={round(frame.centreX + halfWidth(rung.girthMm, frame.scale))}
          y1={round(yOf(rung.heightMm, frame))}
          y2={round(yOf(rung.heightMm, frame))}
        />
      ))}
      <path className={pictureStyles.limbEdge} d={path.edges} />
      <path className={pictureStyles.limbGap} d={path.dotted} />
      {first && first.heightMm > 0 && view.sheet.direction === 'up' && (
        <path className={pictureStyles.openEnd} d={straightDown(first, frame)} />
      )}
    </g>
  );
}

/** One side's line without the rungs that are asked about: they count neither in its shape nor in its scale. */
function trustedLine(one: SideView, view: SheetView): TapedLine {
  const asked = view.questions.filter(({ side }) => side === one.side).map(({ doubt }) => doubt);
  return tapedLine(withoutRungs(one.ladder, doubtfulPlaces(asked)));
}

function straightDown(rung: { heightMm: number; girthMm: number }, frame: Frame): string {
  return [-1, 1]
    .map(
      (way) =>
        `M${round(frame.centreX + way * halfWidth(rung.girthMm, frame.scale))} ${round(yOf(rung.heightMm, frame))}V${round(yOf(0, frame))}`,
    )
    .join('');
}

function landmarksOf(lead: SideView, view: SheetView): PictureLandmark[] {
  const line = tapedLine(lead.ladder);
  const known = LIMBS[view.sheet.limb].landmarks.flatMap((landmark) => {
    const heightMm = line.landmarks.get(landmark);
    return heightMm === undefined
      ? []
      : [{ name: placeInWords(landmark), heightMm, inferred: false, isZero: landmark === view.sheet.zero }];
  });
  if (known.some((one) => one.isZero)) return known;
  return [...known, { name: placeInWords(view.sheet.zero) || 'zero', heightMm: 0, inferred: false, isZero: true }];
}
