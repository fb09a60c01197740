import type { FabricKind } from '../garments/tension-loss';
import type { FabricWear } from '../garments/worn-fit';

const FABRICS: Readonly<Record<FabricKind, string>> = {
  'scar garment': 'scar garments',
  'flat knit': 'flat knit',
  unknown: 'scar garments and flat knit, the fabric not being known',
};

/** `36 worn days take about 7 % of the tension (3–11 %): published for flat knit, grown people; no reading here narrowed it.` */
export function wearInWords({ wornDays, loss, left }: FabricWear): string {
  if (wornDays === 0) return 'Not worn yet: nothing is lost to wear.';
  const lost = (share: number) => ((1 - share) * 100).toFixed(0);
  const readings =
    loss.pairs === 0
      ? 'no pressure reading here narrowed it'
      : `narrowed by ${loss.pairs === 1 ? 'one pair' : `${loss.pairs} pairs`} of pressure readings here`;
  const days = Math.round(wornDays);
  return `${days === 1 ? 'One worn day takes' : `${days} worn days take`} about ${lost(left.middle)}\u202f% of the tension (${lost(left.most)}–${lost(left.least)}\u202f%): published for ${FABRICS[loss.fabric]}, grown people; ${readings}.`;
}

/** `0.75–1.25` */
export function bandInWords({ low, high }: { readonly low: number; readonly high: number }): string {
  return `${low.toFixed(2)}–${high.toFixed(2)}`;
}
