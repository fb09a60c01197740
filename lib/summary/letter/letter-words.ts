/** Version of every word below; raise it when a word changes. Signed letters carry the version they were written with. */
export const LETTER_VERSION = 1;

/** Headings of the letter, one a section, in their order. */
export const LETTER_HEADS = {
  who: 'Patient and payer',
  diagnosis: 'Diagnosis and affected part',
  prescriber: 'Prescriber and order',
  asked: 'What is asked',
  custom: 'Why it is made to measure',
  replaces: 'What it replaces',
  reason: 'Reason',
  evidence: 'Measurements',
  effect: 'Effect of not replacing it',
  wear: 'Wear plan and response so far',
  coverage: 'Coverage',
  signature: 'Signature and attachments',
} as const;
export type SectionKey = keyof typeof LETTER_HEADS;

/** The fixed sentences of the letter. Each says what is on record, or that it is not. */
export const LETTER_WORDS = {
  title: 'Request for a replacement compression garment',
  patient: (name: string, reference: string, born: string) => `Patient: ${name}, reference ${reference}, born ${born}.`,
  unnamed: 'name kept by the clinic under the reference',
  payer: (payer: string) => `Payer: ${payer}.`,
  payerNumber: (number: string) => `Number with the payer: ${number}.`,
  noPayerNumber: 'No number with the payer was given.',
  letterDay: (day: string) => `Date of this letter: ${day}.`,
  diagnosis: (words: string) => `Diagnosis: ${words}`,
  onset: (words: string) => `Onset, injury or operation: ${words}`,
  noOnset: 'The date of onset, injury or operation was not given.',
  affected: (limbs: string) => `Affected: ${limbs}.`,
  noAffected: 'No limb is marked as affected on record.',
  prescriber: (name: string) => `Prescriber: ${name}.`,
  orderDay: (day: string) => `Order of ${day}.`,
  noOrderDay: 'The date of the prescriber’s order was not given.',
  held: 'The signed and dated order is held by the clinic.',
  notHeld: 'The signed and dated order is not yet held by the clinic.',
  asked: (pieces: string, what: string, covers: string, limb: string) => `${pieces}: ${what}, made to measure, ${covers}, ${limb}.`,
  noForm: 'compression garment, its form not recorded',
  klass: (words: string) => `Class: ${words}.`,
  noClass: 'No compression class is recorded.',
  worn: (when: string) => `Worn ${when}.`,
  noUse: 'Whether it is worn by day or by night is not recorded.',
  options: (words: string) => `Closures, linings and other options: ${words}.`,
  noOptions: 'No closures, linings or other options.',
  optionsUnknown: 'Closures, linings and other options are not recorded.',
  cutFrom: (day: string) => `Cut from the ladder taped on ${day}.`,
  custom: (reasons: string) => `Ticked by the therapist: ${reasons}.`,
  piece: (label: string, limb: string, covers: string) => `Piece ${label}, ${limb}, ${covers}.`,
  cutOn: (day: string) => `It was cut from the ladder of ${day}.`,
  issued: (day: string) => `It was delivered on ${day}.`,
  notIssued: 'The day of its delivery is not recorded.',
  firstWorn: (day: string) => `First worn on ${day}.`,
  notWorn: 'No first wear is recorded.',
  age: (days: number, until: string) => `${days} days from first wear to ${until}.`,
  wearDays: (days: number, turn: number) =>
    `${days} days of wear in its share, the pieces in turn taken to share the days evenly; ${turn} in turn now.`,
  life: (days: number) => `Expected life: ${days} days from first wear.`,
  stage: (stage: string) => `On record as ${stage}.`,
  retired: (day: string, as: string) => `Out of use since ${day}: ${as}.`,
  retiredUnsaid: 'the reason is not recorded',
  altered: (words: string) => `Altered: ${words}.`,
  noAlterations: 'No alteration is recorded.',
  condition: 'Its condition was not described on record.',
  reason: (reason: string) => `Primary reason: ${reason}.`,
  incident: (day: string, words: string) => `On ${day}: ${words}`,
  wearIn: (first: number, full: number, days: number) => `Wear was built up from ${first} to ${full} hours a day over ${days} days.`,
  noWearPlan: 'No hours of wear are recorded.',
  firstFit: (day: string, outcome: string) => `At the first fit on ${day} the outcome was: ${outcome}.`,
  firstFitOnly: (day: string) => `The first fit was checked on ${day}; what was found is not recorded.`,
  noFirstFit: 'No first fit is recorded.',
  call: (day: string, note: string) => `Call on ${day}: ${note}.`,
  noRule: 'No payer’s rule is on record for this patient, so no count is given.',
  rule: (payer: string, from: string, source: string) => `Rule of ${payer}, counted from ${from}. Source: ${source}`,
  noClock: 'No piece of this limb is counted under the rule.',
  excepted: (reason: string) => `The request is made under the rule’s exception for this reason: ${reason}.`,
  notExcepted: (reason: string) => `The rule names no exception for this reason: ${reason}.`,
  attachments: (words: string) => `Attached: ${words}`,
  noAttachments: 'Nothing is attached.',
  protocol:
    'Figures are as taped and recorded by the clinic; this letter does not decide coverage or treatment. Local protocol and the prescriber are followed.',
} as const;

/** The sentences and table heads of the measurements. */
export const EVIDENCE_WORDS = {
  noNewLadder: (limb: string, day: string) =>
    `The ${limb} has not been taped since the ladder of ${day} that this piece was cut from, so there are no new girths to compare.`,
  noOldLadder: (limb: string, day: string) =>
    `No ladder of the ${limb} is on record for ${day}, the day this piece was cut from, so there are no old girths to compare.`,
  notComparable: (old: string, now: string) => `The ladders of ${old} and ${now} cannot be put on the same anatomy, so no change is given.`,
  taped: (old: string, oldBy: string, now: string, nowBy: string) => `Taped on ${old} ${oldBy} and on ${now} ${nowBy}.`,
  by: (measurer: string) => `by ${measurer}`,
  nobody: 'by a measurer whose name is not recorded',
  method: (landmarks: string) =>
    `Girths by tape; volume from truncated cones between neighbouring girths. Both ladders are put on the same anatomy by ${landmarks}; an old girth between two places is read on the straight line between them. Errors are half of a 95 % range.`,
  inferred: 'One or more landmarks were inferred from another visit.',
  girths: (unit: string, old: string, oldBy: string, now: string, nowBy: string) =>
    `Girth, ${unit}, at the same places: old ${old} ${oldBy}, new ${now} ${nowBy}. New girths as typed; old ones, change and error computed.`,
  girthHeads: (zero: string, old: string, now: string) => [
    `Place, from ${zero}`,
    `Old, ${old}`,
    `New, ${now}`,
    'Change',
    'Change, %',
    'Error, ±',
  ],
  notTaped: 'not taped',
  none: 'none',
  volumes: (share: string) => `Volume of the stretch taped at both visits (${share} of the old ladder), by tape.`,
  volumeHeads: ['Day', 'Measured', 'Volume', 'Error, ±'],
  noVolume: 'The volume of the shared stretch could not be computed.',
  exceeds: (change: string, smallest: string) =>
    `The volume changed by ${change}. This exceeds measurement error: a change of more than ${smallest} is larger than the error of the two tapings.`,
  within: (change: string, smallest: string) =>
    `The volume changed by ${change}. This does not exceed measurement error: a change up to ${smallest} cannot be told from the error of the two tapings.`,
  excess: (day: string, limb: string, volume: string, other: string, otherVolume: string, span: string, share: string, error: string) =>
    `On ${day} the ${limb} held ${volume} and the ${other} ${otherVolume} over the same heights, ${span}: ${share} against the other, give or take ${error}.`,
  noExcess: (day: string) =>
    `No volume against a healthy other limb is given for ${day}: it was not taped over the same heights, or is affected too.`,
  body: 'Weight and height on the days of the two ladders.',
  bodyHeads: ['Day', 'Measured', 'Weight', 'Height'],
  noWeight: (day: string) => `No weight was recorded on ${day}.`,
  noHeight: (day: string) => `No height was recorded on ${day}.`,
  notRecorded: 'not recorded',
} as const;
