import type { PatientAnalysis } from '../../analysis/analyse-patient';
import { formOf } from '../../garment-forms/own-form';
import { inUse } from '../../garments/wear';
import type { LimbSide } from '../../record/patient-record';
import type { FamilyHelp } from './family-content';

/**
 * What the emergency part of a family page needs beside the clinic's texts: the emergency number of the place, the clinic's minutes, what
 * the garments in use press and, of those of the limb the page is about, how they open.
 *
 * Shape: an analysis, a limb, the emergency number (`emergencyOf`). A garment whose form is not on record adds nothing.
 */
export function familyHelp({ record, policy, today }: PatientAnalysis, { limb, side }: LimbSide, emergency: string): FamilyHelp {
  const garments = record.pieces
    .filter((piece) => inUse(piece, today))
    .flatMap((piece) => (piece.garment ? [{ piece, garment: piece.garment }] : []));
  const ofLimb = garments.filter(({ piece }) => piece.limb === limb && piece.side === side);
  const closures = ofLimb.flatMap(({ garment }) => garment.options.filter(({ kind }) => kind === 'closure').map(({ choice }) => choice));
  return {
    emergency,
    minutes: policy.feelingBackMinutes,
    watch: [...new Set(garments.flatMap(({ garment }) => formOf(garment)?.watch ?? []))],
    closures: [...new Set(closures)],
  };
}
