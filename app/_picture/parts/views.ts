import { closed, type Point } from './pen';

/** How a part is looked at: the outline in a box of its own, px, of the right side; the left one is its mirror image. */
export type View = { readonly width: number; readonly height: number; readonly outline: string; readonly says: string };

/** Where each finger stands on the outline of the hand: its two edges, its web and its tip. */
export const DIGITS = {
  'little-finger': { left: 26, right: 37, web: 74, tip: 44 },
  'ring-finger': { left: 38.5, right: 50.5, web: 70, tip: 24 },
  'middle-finger': { left: 52, right: 64, web: 70, tip: 16 },
  'index-finger': { left: 65.5, right: 77.5, web: 74, tip: 26 },
} as const;

/** The thumb lies aslant: the middles of its base and its tip, and half of its width. */
export const THUMB = { base: [84, 101], tip: [108, 72], half: 7 } as const;

/** Where each toe stands on the foot from above: its tip, its web, and half of its width. */
export const TOES = {
  'great-toe': { y: 30, web: 32, tip: 8, half: 10 },
  'second-toe': { y: 46, web: 33, tip: 12, half: 5.5 },
  'third-toe': { y: 57, web: 37, tip: 18, half: 5 },
  'fourth-toe': { y: 67, web: 43, tip: 25, half: 4.7 },
  'little-toe': { y: 76.5, web: 51, tip: 34, half: 4.5 },
} as const;

function hand(): string {
  const fingers = Object.values(DIGITS).map(
    ({ left, right, web, tip }) =>
      `L${left} ${web}V${tip + 5}Q${left} ${tip} ${(left + right) / 2} ${tip}Q${right} ${tip} ${right} ${tip + 5}V${web}`,
  );
  return `M36 150L34 128C31 112 25 100 26 74${fingers.join('')}L79 90C86 86 94 76 102 67C106 63 114 69 110 77C104 88 96 104 84 118L76 130L75 150`;
}

function footAbove(): string {
  const toes = Object.values(TOES).map(
    ({ y, web, tip, half }) =>
      `L${web} ${y - half}H${tip + 4}Q${tip} ${y - half} ${tip} ${y}Q${tip} ${y + half} ${tip + 4} ${y + half}H${web}`,
  );
  return `M178 36C150 32 120 40 90 34C70 22 48 18 32 20${toes.join('')}C70 92 110 84 140 84C160 84 178 84 190 72C196 58 192 42 178 36Z`;
}

const FOOT_INNER: readonly Point[] = [
  [92, 4],
  [90, 40],
  [76, 62],
  [46, 84],
  [18, 96],
  [8, 106],
  [12, 116],
  [40, 116],
  [78, 108],
  [110, 114],
  [150, 118],
  [164, 104],
  [158, 80],
  [146, 60],
  [142, 30],
  [146, 4],
];

/** Half of a figure standing, from the neck down, as seen from the front; the other half is its mirror image. */
const FIGURE: readonly Point[] = [
  [8, 38],
  [9, 50],
  [34, 58],
  [42, 72],
  [44, 110],
  [47, 150],
  [38, 152],
  [33, 112],
  [31, 86],
  [27, 116],
  [28, 128],
  [35, 158],
  [34, 200],
  [27, 240],
  [22, 286],
  [8, 286],
  [6, 240],
  [3, 174],
];

function figure(): string {
  const half = FIGURE.map(([x, y]): Point => [70 + x, y]);
  const other = [...FIGURE].reverse().map(([x, y]): Point => [70 - x, y]);
  return `${closed([...half, ...other])}M70 6C84 6 87 20 84 30C81 40 76 44 70 44C64 44 59 40 56 30C53 20 56 6 70 6Z`;
}

const HEAD: readonly Point[] = [
  [58, 8],
  [86, 16],
  [98, 42],
  [94, 66],
  [88, 84],
  [92, 118],
  [46, 118],
  [46, 100],
  [30, 98],
  [24, 90],
  [26, 78],
  [22, 68],
  [12, 62],
  [20, 48],
  [24, 26],
  [36, 12],
];

const RESIDUAL: readonly Point[] = [
  [20, 4],
  [24, 50],
  [22, 82],
  [30, 112],
  [50, 124],
  [70, 112],
  [78, 82],
  [76, 50],
  [80, 4],
];

/** Every view of a part. Our own line drawings, not to scale: they say where the tape goes, never how large somebody is. */
export const VIEWS = {
  hand: { width: 120, height: 152, outline: hand(), says: 'palm side' },
  'foot-inner': { width: 172, height: 124, outline: closed(FOOT_INNER), says: 'inner side' },
  'foot-above': { width: 200, height: 98, outline: footAbove(), says: 'from above' },
  figure: { width: 140, height: 292, outline: figure(), says: 'from the front' },
  head: { width: 112, height: 122, outline: closed(HEAD), says: 'from the side' },
  residual: { width: 100, height: 130, outline: closed(RESIDUAL), says: 'from the front' },
} as const satisfies Record<string, View>;

export type ViewName = keyof typeof VIEWS;
