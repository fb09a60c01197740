import type { KeptRecord } from '@/db/patients/records';
import type { CutLadder } from '@/lib/forms/read-cut';
import { GARMENT_FORMS, type OwnForm } from '@/lib/garment-forms/garment-catalogue';
import { missingFigures } from '@/lib/orders/missing-figures';
import { showDay } from '@/lib/units/calendar-day';

/** What a visit does not have of a garment, in words: by the key of a choice of its figures, then by the form of garment. */
export type MissingByForm = Readonly<Record<string, Readonly<Record<string, string>>>>;

/** What each form of garment would be made without, for every choice of the newest visit there is; a form that lacks nothing is left out. */
export function missingByForm({ visits }: KeptRecord, choices: readonly CutLadder[], ownForms: readonly OwnForm[]): MissingByForm {
  const newest = choices
    .map(({ day }) => day)
    .toSorted()
    .at(-1);
  const forms = [...GARMENT_FORMS.map(({ id }) => ({ form: id })), ...ownForms.map((own) => ({ form: own.id, own }))];
  const ofChoice = (choice: CutLadder) => {
    const visit = visits.find(({ visitId }) => visitId === choice.visitId);
    return forms.flatMap((garment) => {
      const missing = visit ? missingFigures(garment, choice, visit) : [];
      return missing.length > 0 ? [[garment.form, `Not measured on ${showDay(choice.day)}: ${missing.join('; ')}.`] as const] : [];
    });
  };
  return Object.fromEntries(
    choices.filter(({ day }) => day === newest).map((choice) => [choice.key, Object.fromEntries(ofChoice(choice))]),
  );
}
