import type { LimbKind } from '../ladder/limb';
import type { Part } from '../parts/measure';
import { measureTaken } from '../parts/own-measure';
import { GARMENT_FORMS, type GarmentForm, type GarmentSpec, type GrowthWatchPart, garmentForm, type OwnForm } from './garment-catalogue';

/** What a clinic's list holds of it: whether it is still offered. */
export type ListedForm = OwnForm & { readonly asked: boolean };

/** How many, how long its name may be, how many measures, days. Clinic defaults. */
export const OWN_FORM_BOUNDS = { most: 20, words: 80, measures: 60, leadDays: 400, lifeDays: 1500 } as const;

/** The part whose named measures alone make a clinic's own form; undefined where it lies on a ladder. Example: `hand, no ladder` → `hand`. */
export function madeToPart({ ladders }: Pick<OwnForm, 'ladders'>): Part | undefined {
  const part = /^(hand|foot|trunk|head), no ladder$/.exec(ladders)?.[1];
  return part as Part | undefined;
}

/** Whether a form says what it is made to: one without a ladder names at least one measure of its part. */
export function saysWhatItIsMadeTo(own: Pick<OwnForm, 'ladders' | 'measures' | 'own'>): boolean {
  const part = madeToPart(own);
  return part === undefined || measuresOf(own).some((one) => one?.part === part || one?.alsoOf === part);
}

function measuresOf({ measures, own }: Pick<OwnForm, 'measures' | 'own'>) {
  return measures.map((id) => measureTaken({ measure: id, own: own.find((one) => one.id === id) }));
}

/** The limb a form's own ladder is of, whether both sides are taped, and limbs of another kind beside it. */
export function laddersOf({ ladders }: Pick<OwnForm, 'ladders'>): {
  readonly limb: LimbKind;
  readonly sides: 'own' | 'both';
  readonly limbsToo: readonly LimbKind[];
} {
  if (ladders === 'both legs and both arms') return { limb: 'leg', sides: 'both', limbsToo: ['arm'] };
  const limb: LimbKind = ladders.includes('arm') ? 'arm' : 'leg';
  return { limb, sides: ladders.startsWith('both') ? 'both' : 'own', limbsToo: [] };
}

const WATCHED: Readonly<Record<string, readonly GrowthWatchPart[]>> = {
  hand: ['hand'],
  foot: ['foot'],
  trunk: ['chest'],
  head: ['face', 'neck'],
};

/**
 * A clinic's own form as the catalogue holds others: judged at both edges and between, without a ladder where the catalogue judges its part;
 * a growing child's parts are watched where it takes measures of them.
 */
function asForm(own: OwnForm): GarmentForm {
  const watch = [...new Set(measuresOf(own).flatMap((one) => WATCHED[one?.part ?? ''] ?? []))];
  const { id, words } = own;
  const like = GARMENT_FORMS.find(({ madeTo }) => madeTo !== undefined && madeTo === madeToPart(own));
  if (like?.madeTo) return { id, words, limb: like.limb, madeTo: like.madeTo, zones: like.zones, watch };
  return { id, words, limb: laddersOf(own).limb, zones: ['bottom edge', 'middle', 'top edge'], watch };
}

/** The form of a garment: the clinic's own by the definition beside it, else the catalogue's; undefined where neither has it or none is on record. */
export function formOf(garment: Pick<GarmentSpec, 'form' | 'own'> | null | undefined): GarmentForm | undefined {
  if (!garment) return undefined;
  return garment.own ? asForm(garment.own) : garmentForm(garment.form);
}

/** The forms of a clinic that an order may have: those offered, and the one it has already. */
export function formsOffered(listed: readonly ListedForm[], has?: Pick<GarmentSpec, 'own'>): readonly OwnForm[] {
  const asked: readonly OwnForm[] = listed.filter((one) => one.asked);
  return has?.own && !asked.some(({ id }) => id === has.own?.id) ? [...asked, has.own] : asked;
}
