import clsx from 'clsx';
import type { PictureStrip } from './limb-picture';
import { type Frame, round, yOf } from './outline-path';
import styles from './picture.module.css';

const WIDTH = 44;
/** The outer cells reach this far past their rung. */
const OUTER_PX = 10;
/** A value this near a band edge is set in bold. */
const NEAR_EDGE = 0.09;

type Band = { readonly low: number; readonly high: number };

/** One cell a rung beside the limb, reaching halfway to its neighbours: the value, and a pattern for how far it is from the fitting. */
export function TightnessStrip({
  strip,
  frame,
  x,
  band,
  name,
  named,
  anchor,
}: {
  strip: PictureStrip;
  frame: Frame;
  x: number;
  band: Band;
  name: string;
  /** The first strip carries the word; those beside it only their piece. */
  named: boolean;
  /** Outside the left limb the words end at the strip's outer edge, so that they stay in the picture. */
  anchor: 'start' | 'end';
}) {
  const cells = [...strip.cells].sort((one, other) => one.heightMm - other.heightMm);
  const wordX = anchor === 'end' ? x + WIDTH : x;
  return (
    <g>
      {named && (
        <text className={styles.stripName} x={wordX} y={14} textAnchor={anchor}>
          Tightness
        </text>
      )}
      <text className={styles.stripPiece} x={wordX} y={30} textAnchor={anchor}>
        {named ? `piece ${strip.piece}` : strip.piece}
      </text>
      {cells.map((cell, index) => {
        const below = cells[index - 1]?.heightMm;
        const above = cells[index + 1]?.heightMm;
        const top = round(above === undefined ? yOf(cell.heightMm, frame) - OUTER_PX : yOf((cell.heightMm + above) / 2, frame));
        const bottom = round(below === undefined ? yOf(cell.heightMm, frame) + OUTER_PX : yOf((cell.heightMm + below) / 2, frame));
        const near =
          Math.min(Math.abs(cell.tightness - band.low), Math.abs(cell.tightness - band.high)) <= NEAR_EDGE ||
          cell.tightness > band.high ||
          cell.tightness < band.low;
        const pattern = patternOf(cell.tightness, band);
        const middle = (top + bottom) / 2;
        return (
          <g key={cell.heightMm}>
            <rect className={styles.stripCell} x={x} y={top} width={WIDTH} height={Math.max(bottom - top, 1)} />
            {pattern && <rect x={x} y={top} width={WIDTH} height={Math.max(bottom - top, 1)} fill={`url(#${name}-${pattern})`} />}
            <rect className={styles.stripClear} x={x + 7} y={middle - 8} width={WIDTH - 14} height={16} />
            <text className={clsx(styles.stripValue, near && styles.near)} x={x + WIDTH / 2} y={middle + 4} textAnchor="middle">
              {cell.tightness.toFixed(2)}
            </text>
          </g>
        );
      })}
    </g>
  );
}

/** Plain near the fitting; stripes when tighter, dots when looser, dense beyond the clinic's band. */
function patternOf(tightness: number, band: Band): string | null {
  const plain = plainOf(band);
  if (tightness > band.high) return 'stripes-dense';
  if (tightness > plain.high) return 'stripes';
  if (tightness < band.low) return 'dots-dense';
  if (tightness < plain.low) return 'dots';
  return null;
}

/** The stretch round the fitting that carries no pattern: two fifths of the way to either edge of the band. */
function plainOf(band: Band): Band {
  return { low: 1 - (1 - band.low) * 0.4, high: 1 + (band.high - 1) * 0.4 };
}

/** What the patterns of a strip mean, in one sentence. */
export function patternsInWords(band: Band): string {
  const plain = plainOf(band);
  const two = (value: number): string => value.toFixed(2);
  return `Tightness: plain ${two(plain.low)}–${two(plain.high)}; striped tighter, dense above ${two(band.high)}; dotted looser, dense below ${two(band.low)}.`;
}
