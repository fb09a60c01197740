import { along, around, behind, both, type Point, type Way } from './pen';
import { DIGITS, THUMB, TOES, type ViewName } from './views';

/** The drawing of one measure: how the part is looked at, and where the tape goes. */
export type Drawn = { readonly view: ViewName; readonly way: Way };

const on = (view: ViewName, ways: Readonly<Record<string, Way>>): [string, Drawn][] =>
  Object.entries(ways).map(([id, way]) => [id, { view, way }]);

const fingers = Object.entries(DIGITS).flatMap(([digit, { left, right, web, tip }]): [string, Way][] => {
  const at = (share: number): Way => around([left, web + (tip - web) * share], [right, web + (tip - web) * share], 0.3);
  const middle = (left + right) / 2;
  return [
    [`${digit}-length`, along([middle, web], [middle, tip])],
    [`${digit}-base-girth`, at(0.08)],
    [`${digit}-joint-girth`, at(0.5)],
    [`${digit}-tip-girth`, at(0.84)],
  ];
});

/** A girth of the thumb, so far from its base, square to it. */
function roundThumb(share: number): Way {
  const { base, tip, half } = THUMB;
  const [dx, dy] = [tip[0] - base[0], tip[1] - base[1]];
  const length = Math.hypot(dx, dy);
  const [x, y] = [base[0] + dx * share, base[1] + dy * share];
  return around([x + (dy / length) * half, y - (dx / length) * half], [x - (dy / length) * half, y + (dx / length) * half], 0.3);
}

const HAND = {
  'hand-girth': around([25, 82], [79, 82]),
  'hand-girth-with-thumb': around([25, 94], [92, 94]),
  'hand-breadth': along([26, 78], [78, 78]),
  'hand-length': along([58, 138], [58, 16]),
  'palm-length': along([58, 138], [58, 72]),
  'wrist-girth': around([35, 138], [76, 138]),
  'thumb-web-girth': around([28, 106], [88, 106]),
  'hand-figure-of-eight': both(along([36, 136], [76, 136], [26, 84], [78, 84]), behind([78, 84], [36, 136])),
  'web-depth-1': along([55, 138], [78.5, 90]),
  'web-depth-2': along([55, 138], [64.7, 70]),
  'web-depth-3': along([55, 138], [51.2, 70]),
  'web-depth-4': along([55, 138], [37.7, 72]),
  'thumb-length': along([...THUMB.base], [...THUMB.tip]),
  'thumb-base-girth': roundThumb(0.1),
  'thumb-joint-girth': roundThumb(0.5),
  'thumb-tip-girth': roundThumb(0.82),
  ...Object.fromEntries(fingers),
};

const toes = Object.entries(TOES).flatMap(([toe, { y, web, tip, half }]): [string, Way][] => {
  const x = (web + tip) / 2;
  return [
    [`${toe}-girth`, around([x, y - half], [x, y + half], 0.3)],
    [`${toe}-length`, along([web, y], [tip, y])],
  ];
});

const FOOT_ABOVE = {
  'foot-length': along([194, 92], [6, 92]),
  'foot-breadth': along([56, 18], [78, 90]),
  'ball-length': along([194, 12], [56, 12]),
  'heel-to-toe-base-inner': along([190, 28], [34, 22]),
  'heel-to-toe-base-outer': along([186, 80], [52, 82]),
  ...Object.fromEntries(toes),
};

const FOOT_INNER = {
  'ball-girth': around([40, 87], [50, 115]),
  'toe-base-girth': around([26, 93], [32, 116]),
  'instep-girth': around([66, 70], [80, 109]),
  'heel-ankle-girth': around([88, 48], [156, 114]),
  'ankle-girth': around([90, 26], [143, 26]),
  'ankle-figure-of-eight': both(along([90, 50], [70, 108], [96, 112], [88, 54], [146, 66]), behind([146, 66], [90, 50])),
};

const FIGURE = {
  'neck-girth': around([61, 46], [79, 46]),
  'neck-base-girth': around([56, 55], [84, 55], 0.3),
  'shoulder-girth': around([29, 72], [111, 72]),
  'chest-girth': around([37, 88], [103, 88]),
  'under-bust-girth': around([40, 98], [100, 98]),
  'waist-girth': around([42, 112], [98, 112]),
  'waist-girth-navel': around([43, 119], [97, 119]),
  'waist-height-navel': along([132, 286], [132, 119]),
  'top-hip-girth': around([42, 132], [98, 132]),
  'hip-girth': around([36, 152], [104, 152]),
  'crotch-height': along([70, 286], [70, 172]),
  'crotch-length': both(along([67, 112], [67, 172]), behind([73, 172], [73, 112])),
  'crotch-length-front': along([70, 112], [70, 172]),
  'crotch-length-back': behind([70, 172], [70, 112]),
  'trunk-loop': both(along([52, 58], [60, 112], [70, 172]), behind([70, 172], [46, 112], [52, 58])),
  'waist-back-length': behind([70, 56], [70, 112]),
  'waist-front-length': along([70, 58], [70, 112]),
  'sitting-height': along([10, 172], [10, 6]),
  'armhole-girth': around([38, 58], [40, 86], 0.4),
} satisfies Record<string, Way>;

const HEAD = {
  'head-girth': around([20, 40], [97, 40]),
  'forehead-girth': around([23, 28], [93, 28]),
  'chin-arc': along([66, 58], [46, 84], [25, 92]),
  'under-jaw-arc': along([66, 58], [54, 88], [44, 100]),
  'face-length': along([19, 50], [28, 97]),
};

const lengthOf = (x: number): Way => along([x, 12], [x, 121] as Point);

/** Where the tape goes for every measure of the catalogue, by its id. */
const WAYS: ReadonlyMap<string, Drawn> = new Map([
  ...on('hand', HAND),
  ...on('foot-above', FOOT_ABOVE),
  ...on('foot-inner', FOOT_INNER),
  ...on('figure', FIGURE),
  ...on('head', HEAD),
  ...on('residual', { 'residual-leg-length': lengthOf(50), 'residual-arm-length': lengthOf(50) }),
]);

/** The drawing of a measure, or undefined. */
export function tapeWay(measureId: string): Drawn | undefined {
  return WAYS.get(measureId);
}
