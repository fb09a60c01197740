import { halfWidth, outlinePath, round, yOf } from '@/app/_picture/outline-path';
import type { FamilyPage } from '@/lib/summary/family/family-page';

const HEIGHT = 300;
const TOP = 34;
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
  const said = `${picture.caption}: ${drawings.map((one) => `${one.label}, ${one.lengthWords}`).join('; ')}`;
  return (
    <figure className="family-picture">
      <figcaption>{picture.caption}</figcaption>
      <svg viewBox={`0 0 ${width} ${ground + FOOT}`} width={width} height={ground + FOOT} role="img" aria-label={said}>
        {drawings.map((one, index) => {
          const centreX = 8 + widths.slice(0, index).reduce((sum, width) => sum + width + GAP, 0) + (widths[index] as number) / 2;
          const lowest = Math.min(0, ...one.heightsMm);
          const frame = { scale, centreX, zeroY: ground + lowest * scale };
          const path = outlinePath(one, frame);
          const top = round(yOf(Math.max(...one.heightsMm), frame));
          return (
            <g key={one.day} className={`limb ${side}`}>
              <path className="limb-fill" d={path.fill} />
              <path className="limb-edge" d={path.edges} />
              <path
                className="length-arrow"
                d={`M${centreX} ${top + 4}V${ground - 2}m-4 -7l4 7l4 -7M${centreX - 4} ${top + 11}l4 -7l4 7`}
              />
              <text className="length-words" x={centreX} y={round((top + ground) / 2)} textAnchor="middle">
                {one.lengthWords}
              </text>
              <text className="drawing-label" x={centreX} y={ground + 22} textAnchor="middle">
                {one.label}
              </text>
            </g>
          );
        })}
        <path className="ground-line" d={`M0 ${ground}H${width}`} />
      </svg>
    </figure>
  );
}
