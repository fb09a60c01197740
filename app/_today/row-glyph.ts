import type { RowOutline } from '@/lib/schedule/patient-work';

/** The paths of a small outline, px: what is filled and what is drawn. */
export type GlyphPaths = { readonly width: number; readonly height: number; readonly fill: string; readonly edge: string };

const HEIGHT = 30;
const MARGIN = 2;
/** Girth to half-width is 1 / 2π; widened so that small outlines can be told apart. */
const WIDEN = 1.6;
/** Points along each edge: more cannot be seen at this size. */
const POINTS = 7;

/** The outline of a limb for a line of the worklist: a few points a side, in whole tenths of a pixel; undefined without two rungs. */
export function rowGlyph({ heightsMm, girthsMm }: RowOutline): GlyphPaths | undefined {
  const top = Math.max(...heightsMm);
  const bottom = Math.min(...heightsMm);
  if (heightsMm.length < 2 || !(top > bottom)) return undefined;
  const halvesMm = girthsMm.map((girth) => (girth * WIDEN) / (2 * Math.PI));
  const widest = Math.max(...halvesMm);
  const scale = Math.min(HEIGHT / (top - bottom), HEIGHT / 2 / widest);
  const centre = widest * scale + MARGIN;
  const kept = heightsMm.map((_, rung) => rung).filter((rung) => isKept(rung, heightsMm.length));
  const edge = (sign: 1 | -1) =>
    kept.map((rung) => `${tenth(centre + sign * (halvesMm[rung] ?? 0) * scale)} ${tenth(MARGIN + (top - (heightsMm[rung] ?? 0)) * scale)}`);
  const left = edge(-1).join('L');
  const right = edge(1);
  return {
    width: tenth(2 * centre),
    height: tenth((top - bottom) * scale + 2 * MARGIN),
    fill: `M${left}L${[...right].reverse().join('L')}Z`,
    edge: `M${left}M${right.join('L')}`,
  };
}

function isKept(rung: number, rungs: number): boolean {
  const step = Math.max(1, (rungs - 1) / (POINTS - 1));
  return Math.round(Math.round(rung / step) * step) === rung;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
