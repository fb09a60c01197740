import { DEFAULT_POLICY } from '../../limits/policy';
import { type ClinicTexts, textsWithCalls } from './clinic-texts';
import { ANYWHERE } from './emergency-number';
import type { FamilyChoice, FamilyHelp, FamilyPage } from './family-content';
import type { FamilyWords } from './family-words';

const NOTHING_KNOWN: FamilyHelp = { emergency: ANYWHERE, minutes: DEFAULT_POLICY.feelingBackMinutes, watch: [], closures: [] };
/** A line to write on by hand. */
const BLANK = '________';

/**
 * The emergency part of a family page: take it off now, ambulance, same day, next working day. Printed whole whatever the clinic typed.
 *
 * Shape: what the therapist typed, what is known of garments and place, the clinic's texts, the language; the box as it is frozen.
 * Source: family sheets of children's hospitals (first 24 hours; blister: off and call); the grouping by haste is common practice.
 */
export function helpBoxes(
  choice: FamilyChoice,
  known: FamilyHelp | undefined,
  texts: ClinicTexts | undefined,
  words: FamilyWords,
): FamilyPage['call'] {
  const { person } = choice;
  const help = known ?? NOTHING_KNOWN;
  const { phone, night } = textsWithCalls(texts, choice.calls ?? {});
  const byNight = night === '' ? words.noNight : words.night(night);
  const own = texts?.emergency.trim() ?? '';
  const emergency = own || help.emergency;
  const { ambulance, sameDay, nextDay } = words;
  const lines = [
    phone === '' ? words.noPhone : (texts?.phoneHours.trim() ?? ''),
    byNight,
    words.firstDay,
    ...help.closures.flatMap((closure) => words.opens(closure) ?? []),
  ];
  return {
    head: words.heads.call,
    lead: words.callLead,
    signs: words.callSigns(person.limb, help.watch),
    phone,
    lines: lines.filter((line) => line !== ''),
    ...(night === '' ? {} : { night }),
    line: words.callLine(phone || BLANK, byNight, emergency),
    also: [
      {
        head: ambulance.head(emergency),
        lead: ambulance.lead,
        signs: [ambulance.minutes(person.limb, help.minutes), ...ambulance.signs, ambulance.heat],
        line: words.tell(person, choice.wornFor?.trim() || BLANK, choice.allergies?.trim() || words.noAllergies),
        urgent: true,
      },
      { ...sameDay, line: null, urgent: false },
      { ...nextDay, line: null, urgent: false },
    ],
  };
}

/** Whether a page may be approved: nobody goes home with one that does not say whom to call, by day and by night. */
export function mayBeApproved({ call }: FamilyPage): boolean {
  return call.phone !== '' && Boolean(call.night);
}
