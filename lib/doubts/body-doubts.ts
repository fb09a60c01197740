import { bodyMassIndex } from '../growth/body-mass-index';
import type { ExpectedBody, ExpectedFigure } from '../growth/expected-body';
import type { Doubt } from '../ladder/doubt';
import { slipsOfFigure } from '../ladder/slip';
import type { Policy } from '../limits/policy';
import { inUnit, mm, NANOMETRES_IN, type TypedLength } from '../units/length';
import { kg, NANOGRAMS_IN, type TypedMass } from '../units/mass';

/** Height and weight as typed at one visit; null where nobody measured. */
export type TypedBody = { readonly height: TypedLength | null; readonly weight: TypedMass | null };

/** The two limits that a clinic sets for these questions, in SDs. */
export type BodyAskLimits = Pick<Policy, 'bodySlipSds' | 'bodyAloneSds'>;

/** A question about a height or a weight; `wouldFit` is the text of a figure that a usual slip may have turned into this one. */
export type BodyDoubt = Doubt & { readonly kind: 'height' | 'weight'; readonly wouldFit?: string };

/** Smaller differences from what is expected are never asked about: share of the figure. Clinic default. */
const LEAST_SHARE = { height: 0.025, weight: 0.11 } as const;
/** A figure set right must lie within so many SDs of what is expected. Clinic default. */
const FITS_WITHIN = 1.6;
/** No grown or growing person: shorter, taller, lighter, heavier than this is asked about whatever is on record (mm, kg). Clinic default. */
const BOUNDS = { height: [350, 2200], weight: [1.5, 300] } as const;
/** Against other people instead of the person's own figures a question needs this many SDs more. Clinic default. */
const STRANGER = 0.6;

/**
 * What looks odd about a height and a weight: against the person's last figures or, without any, the growth tables and each other.
 *
 * A figure is asked about beyond `bodySlipSds` where a usual slip (digits swapped, a wrong tens digit, the decimal mark, the other unit)
 * would make it fit, beyond `bodyAloneSds` anyway. Weight is held against height (body mass index) where one of them has no earlier
 * figure of its own. Asks; refuses and changes nothing.
 * Shape: figures as typed, what is expected (mm, kg), the limits; at most one question each, height first.
 * Source: `BODY_LIMITS`; usual slips as in `ladder/slip`.
 * Example: 182 cm where 128 cm (SD 1 %) is expected: `Height 182 cm? Expected about 128.3 cm from 3 Feb 2026. With two digits swapped it would be 128 cm.`
 */
export function bodyDoubts(body: TypedBody, expected: ExpectedBody, limits: BodyAskLimits): BodyDoubt[] {
  const height = body.height && asked(heightFigure(body.height), expected.height, expected.known.height, limits);
  const weight = body.weight && asked(weightFigure(body.weight), expected.weight, expected.known.weight, limits);
  const both = body.height && body.weight && !height && !weight ? againstEachOther(body.height, body.weight, expected, limits) : undefined;
  return [height, weight, both].filter((doubt) => doubt !== null && doubt !== undefined);
}

/** One figure beside all that its unit needs: text, value in its own unit, what one unit is in mm or kg. */
type Figure = {
  readonly kind: 'height' | 'weight';
  readonly text: string;
  readonly unit: string;
  readonly value: number;
  readonly unitValue: number;
  readonly otherUnit: number;
};

export function heightFigure(typed: TypedLength): Figure {
  const value = inUnit(mm(typed.nm), typed.unit);
  return { kind: 'height', text: typed.text, unit: typed.unit, value, unitValue: Number(NANOMETRES_IN[typed.unit]) / 1e6, otherUnit: 2.54 };
}

export function weightFigure(typed: TypedMass): Figure {
  const unitValue = Number(NANOGRAMS_IN[typed.unit]) / 1e12;
  return { kind: 'weight', text: typed.text, unit: typed.unit, value: kg(typed) / unitValue, unitValue, otherUnit: 1 / 0.45359237 };
}

/** Whether nobody is that tall or that heavy. Shape: mm or kg. Example: a height of 2,700 mm → true. */
export function isBeyondBounds(measure: 'height' | 'weight', value: number): boolean {
  const [least, most] = BOUNDS[measure];
  return value < least || value > most;
}

/** The question about one figure against what is expected of it, or undefined. */
export function asked(figure: Figure, expected: ExpectedFigure, own: boolean, limits: BodyAskLimits): BodyDoubt | undefined {
  const found = figure.value * figure.unitValue;
  const apart = Math.log(found / expected.value);
  const more = own ? 0 : STRANGER;
  const impossible = isBeyondBounds(figure.kind, found);
  if (!impossible && Math.abs(apart) < LEAST_SHARE[figure.kind]) return undefined;
  const sds = Math.abs(apart) / expected.sd;
  const slip = sds > limits.bodySlipSds + more || impossible ? slipOf(figure, expected) : undefined;
  if (!slip && !impossible && sds <= limits.bodyAloneSds + more) return undefined;
  const expects = own
    ? `From ${expected.from} about ${shown(expected.value, figure)} is expected.`
    : `Of ${expected.from} about ${shown(expected.value, figure)} is usual.`;
  return doubtOf(figure, expects, slip);
}

function againstEachOther(height: TypedLength, weight: TypedMass, expected: ExpectedBody, limits: BodyAskLimits): BodyDoubt | undefined {
  if (expected.known.height && expected.known.weight) return undefined;
  const index = bodyMassIndex(kg(weight), mm(height.nm) / 10);
  if (index === undefined) return undefined;
  const sds = Math.abs(Math.log(index / expected.index.value)) / expected.index.sd;
  if (sds <= limits.bodySlipSds + STRANGER) return undefined;
  const tall = (mm(height.nm) / 1000) ** 2;
  const heavy = { value: expected.index.value * tall, sd: expected.index.sd, from: 'this height' };
  const long = { value: 1000 * Math.sqrt(kg(weight) / expected.index.value), sd: expected.index.sd / 2, from: 'this weight' };
  const [first, second] = expected.known.height
    ? [weightFigure(weight), undefined]
    : expected.known.weight
      ? [heightFigure(height), undefined]
      : [weightFigure(weight), heightFigure(height)];
  const other = (figure: Figure) => (figure.kind === 'weight' ? heavy : long);
  const slipped = [first, second].find((figure) => figure && slipOf(figure, other(figure)));
  const odd = slipped ?? (sds > limits.bodyAloneSds + STRANGER ? first : undefined);
  if (!odd) return undefined;
  return doubtOf(odd, `For ${other(odd).from} about ${shown(other(odd).value, odd)} is usual.`, slipped && slipOf(odd, other(odd)));
}

const SLIPS: Readonly<Record<string, string>> = {
  'times-ten': 'With the decimal mark moved',
  'inch-centimetre': 'Read in the other unit',
  'swapped-digits': 'With two digits swapped',
  'tens-digit': 'With another tens digit',
};

function doubtOf(figure: Figure, expects: string, slip: { readonly kind: string; readonly value: number } | undefined): BodyDoubt {
  const name = figure.kind === 'height' ? 'Height' : 'Weight';
  const fit = slip && shown(slip.value * figure.unitValue, figure);
  const message = `${name} ${withUnit(figure)}? ${expects}${slip ? ` ${SLIPS[slip.kind]} it would be ${fit}.` : ''}`;
  return { kind: figure.kind, distanceMm: null, message, ...(fit ? { wouldFit: fit } : {}) };
}

function slipOf(figure: Figure, expected: ExpectedFigure) {
  const room = Math.max(FITS_WITHIN * expected.sd, LEAST_SHARE[figure.kind]);
  return slipsOfFigure(figure.text, figure.value, figure.otherUnit)
    .map((slip) => ({ ...slip, apart: Math.abs(Math.log((slip.value * figure.unitValue) / expected.value)) }))
    .filter((slip) => slip.apart <= room)
    .sort((one, other) => one.apart - other.apart)[0];
}

function withUnit({ text, unit }: Figure): string {
  return /[a-z"″'′]\.?$/i.test(text) ? text : `${text}\u202f${unit}`;
}

function shown(value: number, { unit, unitValue }: Figure): string {
  return `${Number((value / unitValue).toFixed(1))}\u202f${unit}`;
}
