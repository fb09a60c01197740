import { type GrowthWatchPart, garmentForm } from '../record/garment';
import type { Piece } from '../record/patient-record';
import { ageInYears } from '../units/age';
import type { CautionAbout, CautionCard } from './caution-card';

const LOOK_AT: Readonly<Record<GrowthWatchPart, string>> = {
  face: 'bite and jaw',
  neck: 'snoring, breathing and sleep',
  chest: 'shape of the chest and breathing',
  hand: 'arch of the hand and finger shape',
  foot: 'arch of the foot and toe shape',
};

/** Parts that a child's garments may hold back in growth: of each piece in use by its form, and pieces whose form is not on record. */
function watchedParts({ record, policy, today }: CautionAbout): {
  readonly parts: readonly GrowthWatchPart[];
  readonly noForm: readonly Piece[];
} {
  if (ageInYears(record.born, today) >= policy.growthWatchYears) return { parts: [], noForm: [] };
  const inUse = record.pieces.filter((piece) => piece.retired === null || piece.retired > today);
  const parts = new Set(inUse.flatMap((piece) => (piece.garment ? (garmentForm(piece.garment.form)?.watch ?? []) : [])));
  return { parts: [...parts], noForm: inUse.filter((piece) => !piece.garment) };
}

/** A growing child whose garment covers face, neck, chest, hand or foot: looked at each visit. */
export const GROWTH_WATCH: CautionCard = {
  id: 'growth-watch',
  version: 1,
  title: 'Growth watch',
  asked: 'each visit',
  shown: (about) => {
    const { parts, noForm } = watchedParts(about);
    const reasons = [
      ...(parts.length > 0 ? [`a growing child with a garment over ${parts.join(' and ')}`] : []),
      ...(noForm.length > 0
        ? [`the form of piece ${noForm.map(({ piece }) => piece).join(', ')} is not on record: look whether it covers hand or foot`]
        : []),
    ];
    return reasons.length > 0 ? reasons : undefined;
  },
  question: (about) => {
    const { parts } = watchedParts(about);
    const look = (parts.length > 0 ? parts : (['hand', 'foot'] as const)).map((part) => LOOK_AT[part]);
    return `Look at: ${look.join('; ')}. Has the shape changed, or did anything get worse since the last visit?`;
  },
  ifPresent: 'Tell the prescriber, who may ask others to look; do not tighten or lengthen wear meanwhile.',
  limits: ['growthWatchYears'],
  kind: 'published',
  source:
    'Jaw and tooth changes in six children under face garments (Fricke 1996; 1999, J Burn Care Rehabil 20:239–249); chest, hand, foot and sleep from memory of case reports.',
};
