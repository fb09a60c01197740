import { StaticMarkup } from '@/app/_markup/static-markup';
import { halfWidth, outlinePath, round, yOf } from '@/app/_picture/outline-path';
import pictureStyles from '@/app/_picture/picture.module.css';
import type { FamilyPage } from '@/lib/summary/family/family-content';
import styles from './family.module.css';

const HEIGHT = 380;
const TOP = 12;
/** How far down a limb its length is written: where it is wide enough to hold the words. */
const WORDS_AT = 0.3;
const FOOT = 34;
const GAP = 46;
/** Width of a letter of the label under a drawing, with some to spare. */
const LETTER = 8.5;

/** The limb then and now, side by side on one ground line, in true proportion; lengths as the family says them. */
export function FamilyPicture({ picture }: { picture: NonNullable<FamilyPage['picture']> }) {
  const { drawings, side } = picture;
  const tallest = Math.max(...drawings.map((one) => one.lengthMm));
  const scale = HEIGHT / tallest;
  const widths = drawings.map((one) => Math.max(2 * halfWidth(Math.max(...one.girthsMm), scale), 110, one.label.length * LETTER));
  const ground = TOP + HEIGHT;
  const width = round(widths.reduce((sum, one) => sum + one, 0) + GAP * (drawings.length - 1) + 16);
  const first = drawings[0];
  const before =
    drawings.length > 1 && first ? round(ground - (Math.max(...first.heightsMm) - Math.min(0, ...first.heightsMm)) * scale) : null;
  const said = `${picture.caption}: ${drawings.map((one) => `${one.label}, ${one.lengthWords}`).join('; ')}`;
  return (
    <figure className={styles.familyPicture}>
      <figcaption>{picture.caption}</figcaption>
      <StaticMarkup as="svg" viewBox={`0 0 ${width} ${ground + FOOT}`} width={width} height={ground + FOOT} role="img" aria-label={said}>
        {drawings.map((one, index) => {
          const centreX = 8 + widths.slice(0, index).reduce((sum, width) => sum + width + GAP, 0) + (widths[index] as number) / 2;
          const lowest = Math.min(0, ...one.heightsMm);
          const frame = { scale, centreX, zeroY: ground + lowest * scale };
          const path = outlinePath(one, frame);
          const top = round(yOf(Math.max(...one.heightsMm), frame));
          return (
            <g key={one.day} className={pictureStyles.limb} data-side={side}>
              <path className={pictureStyles.limbFill} d={path.fill} />
              <path className={pictureStyles.limbEdge} d={path.edges} />
              <path
                className={styles.lengthArrow}
                d={`M${centreX} ${top + 4}V${ground - 2}m-4 -7l4 7l4 -7M${centreX - 4} ${top + 11}l4 -7l4 7`}
              />
              <LengthWords words={one.lengthWords} x={centreX} y={round(top + WORDS_AT * (ground - top))} />
              <text x={centreX} y={ground + 22} textAnchor="middle">
                {one.label}
              </text>
            </g>
          );
        })}
        {before && <path className={styles.beforeLine} d={`M0 ${before}H${width}`} />}
        <path className={styles.groundLine} d={`M0 ${ground}H${width}`} />
      </StaticMarkup>
    </figure>
  );
}

/** The figure large, its unit under it, so that both stand inside the limb. */
function LengthWords({ words, x, y }: { words: string; x: number; y: number }) {
  const gap = words.lastIndexOf(' ');
  return (
    <text className={styles.lengthWords} x={x} y={y} textAnchor="middle">
      <tspan x={x}>{gap < 0 ? words : words.slice(0, gap)}</tspan>
      {gap >= 0 && (
        <tspan x={x} dy={17} className={styles.lengthUnit}>
          {words.slice(gap + 1)}
        </tspan>
      )}
    </text>
  );
}
