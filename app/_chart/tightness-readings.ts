import { placeOnTape, type Ruler } from '@/lib/ladder/place-on-tape';
import { type ChartReadings, chartReadings, type Reading } from './readings';
import { type TightnessParts, tightnessScales } from './tightness-chart';

/**
 * Tightness in words by place, from the far end of the limb on; the tightest place is read first. What is outside the band once wear is counted is said.
 *
 * `outside`: on which side of the band a tightness as cut lies, as the piece is judged (`sideOfBand`).
 */
export function tightnessReadings(parts: TightnessParts, outside: (asCut: number) => 'tighter' | 'looser' | undefined): ChartReadings {
  const { worn, side, ruler } = parts;
  const points = [...parts.points].sort((one, other) => one.heightMm - other.heightMm);
  const reading = (name: string, shape: Reading['shape'], [low, value, high]: readonly [number, number, number]): Reading => ({
    ...{ name, shape, value, text: value.toFixed(2) },
    range: `${low.toFixed(2)}–${high.toFixed(2)}`,
  });
  const read = points.map(({ heightMm, tightness, reach }) => {
    const beyond = outside(tightness);
    const asWorn = worn.find((one) => one.heightMm === heightMm);
    const asCut = reading('As cut', side, [tightness - reach, tightness, tightness + reach]);
    return {
      at: heightMm,
      words: `${placeInWords(heightMm, ruler)}${beyond ? `: ${beyond} than the band, wear counted` : ''}`,
      readings: [asCut, ...(asWorn ? [reading('As worn', 'diamond', [asWorn.low, asWorn.middle, asWorn.high])] : [])],
    };
  });
  const most = Math.max(...points.map(({ tightness }) => tightness));
  return { ...chartReadings(tightnessScales(parts), read), first: points.findIndex(({ tightness }) => tightness === most) };
}

/** `Place at 12.0 cm`, `Place at 2.0 above, cm`: as the tape has it. */
function placeInWords(heightMm: number, ruler: Ruler): string {
  const place = placeOnTape(heightMm, ruler);
  return `Place at ${place}${/[a-z]$/.test(place) ? ',' : ''} ${ruler.unit}`;
}
