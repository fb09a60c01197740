import type { AnalysedLimb, AnalysedVisit } from '@/lib/analysis/analyse-patient';
import { residualVolume } from '@/lib/analysis/residual-limb';
import { limbInWords } from '@/lib/ladder/limb';
import { isNoAnswer } from '@/lib/outcome';
import { capitalized } from '@/lib/units/capitalized';
import { showVolume } from '@/lib/units/volume';

/** Volume of a residual limb with its end, by the named form and its range; nothing for limbs that do not end early. */
export function ResidualLines({ limbs }: { limbs: readonly { readonly limb: AnalysedLimb; readonly at: AnalysedVisit }[] }) {
  const lines = limbs.flatMap(({ limb, at }) => {
    const found = residualVolume(limb, at);
    if (!found) return [];
    if (isNoAnswer(found)) return [found.noAnswer];
    const words = capitalized(`residual ${limbInWords(found.limb, found.side)}`);
    return [
      `${words}: ${showVolume(found.wholeMl)}, of it ${showVolume(found.capMl)} (${showVolume(found.capLowMl)} to ${showVolume(found.capHighMl)}) beyond the last girth, ${(found.endMm / 10).toFixed(1)} cm. ${found.words}`,
    ];
  });
  return lines.map((line) => <p key={line}>{line}</p>);
}
