/** Version of every word below; raise it when a word changes. Signed letters carry the version they were written with. */
export const LETTER_VERSION = 5;

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

/** The fixed sentences of the letter. Each says what is on record; what is not on record is told to the therapist alone (`LETTER_GAPS`). */
export const LETTER_WORDS = {
  title: (kind: string) => `Request for a replacement ${kind}`,
  patient: (name: string, reference: string, born: string) => `Patient: ${name}, reference ${reference}, born ${born}.`,
  unnamed: 'name kept by the clinic under the reference',
  payer: (payer: string) => `Payer: ${payer}.`,
  payerNumber: (number: string) => `Number with the payer: ${number}.`,
  letterDay: (day: string) => `Date of this letter: ${day}.`,
  diagnosis: (words: string) => `Diagnosis: ${words}`,
  onset: (words: string) => `Onset, injury or operation: ${words}`,
  phase: (words: string, since: string, baseline: string | null) =>
    `Course of care: ${words} since ${since}${baseline === null ? '' : `; its changes are counted from the measurements of ${baseline}`}.`,
  affected: (limbs: string) => `Affected: ${limbs}.`,
  prescriber: (name: string) => `Prescriber: ${name}.`,
  orderDay: (day: string) => `Order of ${day}.`,
  held: 'The signed and dated order is held by the clinic.',
  asked: (pieces: string, what: string, covers: string, limb: string) => `${pieces}: ${what}, made to measure, ${covers}, ${limb}.`,
  klass: (words: string) => `Class: ${words}.`,
  worn: (when: string) => `Worn ${when}.`,
  options: (words: string) => `Closures, linings and other options: ${words}.`,
  cutFrom: (day: string) => `Made to measurements of ${day}.`,
  custom: (reasons: string) => `Ticked by the therapist: ${reasons}.`,
  piece: (label: string, limb: string, covers: string) => `Piece ${label}, ${limb}, ${covers}.`,
  cutOn: (day: string) => `It was made to measurements of ${day}.`,
  issued: (day: string) => `It was delivered on ${day}.`,
  firstWorn: (day: string) => `First worn on ${day}.`,
  age: (days: number, until: string) => `${days} days from first wear to ${until}.`,
  wearDays: (days: number, turn: number) =>
    `${days} days of wear in its share, the pieces in rotation taken to share the days evenly; ${turn} in rotation now.`,
  life: (days: number) => `Expected life: ${days} days from first wear.`,
  stage: (stage: string) => `On record as ${stage}.`,
  retired: (day: string, as: string | null) => `Out of use since ${day}${as ? `: ${as}` : ''}.`,
  altered: (words: string) => `Altered: ${words}.`,
  reason: (reason: string) => `Primary reason: ${reason}.`,
  incident: (day: string, words: string) => `On ${day}: ${words}`,
  wearIn: (first: number, full: number, days: number) => `Wear was built up from ${first} to ${full} hours a day over ${days} days.`,
  firstFitOnly: (day: string) => `The first fit was checked on ${day}.`,
  firstFit: (day: string, outcome: string) => `At the first fit on ${day} the outcome was: ${outcome}.`,
  call: (day: string, note: string) => `Call on ${day}: ${note}.`,
  rule: (payer: string, from: string, source: string) => `Rule of ${payer}, counted from ${from}. Source: ${source}`,
  excepted: (reason: string) => `The request is made under the rule’s exception for this reason: ${reason}.`,
  notExcepted: (reason: string) => `The rule names no exception for this reason: ${reason}.`,
  attachments: (words: string) => `Attached: ${words}`,
  protocol:
    'Figures are as measured and recorded by the clinic; this letter does not decide coverage or treatment. Local protocol and the prescriber are followed.',
} as const;

/** The sentences and table heads of the measurements. */
export const EVIDENCE_WORDS = {
  measured: (old: string, oldBy: string, now: string, nowBy: string) => `Measured on ${old}${oldBy} and on ${now}${nowBy}.`,
  by: (measurer: string) => ` by ${measurer}`,
  method: (landmarks: string) =>
    `Circumferences by tape; volume from truncated cones between neighbouring circumferences. Both sets are put on the same anatomy by ${landmarks}; an old circumference between two places is read on the straight line between them.`,
  errors: 'Errors are half of a 95 % range.',
  inferred: 'One or more landmarks were inferred from another visit.',
  girths: (unit: string, old: string, oldBy: string, now: string, nowBy: string) =>
    `Circumference, ${unit}, at the same places: old ${old}${oldBy}, new ${now}${nowBy}. New ones as typed; old ones and changes computed.`,
  girthHeads: (zero: string, old: string, now: string) => [
    `Place, from ${zero}`,
    `Old, ${old}`,
    `New, ${now}`,
    'Change',
    'Change, %',
    'Error, ±',
  ],
  measures: (old: string, oldBy: string, now: string, nowBy: string) =>
    `Hand, foot and trunk by tape: old ${old}${oldBy}, new ${now}${nowBy}. Figures as typed; changes computed.`,
  measureHeads: (old: string, now: string) => ['Measure', `Old, ${old}`, `New, ${now}`, 'Change', 'Change, %', 'Error, ±'],
  /** A girth on record that lies on other anatomy than the new place: shown, and no change made of it. */
  asRecorded: (girth: string, distance: string) => `${girth}, as recorded at ${distance}`,
  notMeasured: 'not measured',
  none: '–',
  notCompared: 'Where a dash stands nothing is compared: the old set does not reach that place.',
  length: (from: string, to: string, old: string, now: string, change: string) =>
    `The limb from the ${from} to the ${to} measured ${old} at the old measurements and ${now} at the new ones, ${change}.`,
  volumes: (stretch: string, share: string) =>
    `Volume of the stretch measured at both visits, ${stretch} on the new tape (${share} of the old one).`,
  volumeHeads: ['Day', 'Measured', 'Volume', 'Error, ±'],
  change: (change: string) => `The volume changed by ${change}.`,
  exceeds: (smallest: string) =>
    `This exceeds measurement error: a change of more than ${smallest} is larger than the error of the two measurements.`,
  within: (smallest: string) =>
    `This does not exceed measurement error: a change up to ${smallest} cannot be told from the error of the two measurements.`,
  excess: (
    day: string,
    limb: string,
    volume: string,
    other: string,
    otherVolume: string,
    span: string,
    share: string,
    error: string | null,
  ) =>
    `On ${day} the ${limb} held ${volume} and the ${other} ${otherVolume} over the same heights, ${span}: ${share} against the other${error ? `, give or take ${error}` : ''}.`,
  body: 'Weight and height on the days of the two measurements.',
  bodyHeads: ['Day', 'Measured', 'Weight', 'Height'],
  onRecord: 'recorded',
  noFigure: 'none',
} as const;

/** What is not on record, for the therapist who writes the letter; none of it reaches the payer. */
export const LETTER_GAPS = {
  form: 'the form of the garment',
  klass: 'its class',
  options: 'closures, linings and other options',
  delivered: 'the day of delivery',
  firstWorn: 'the first wear',
  wearPlan: 'hours of wear',
  firstFit: 'what the first fit found',
  rule: 'a payer’s rule, so that no count of coverage is given',
  weight: (day: string) => `weight on ${day}`,
  height: (day: string) => `height on ${day}`,
  measurer: (day: string) => `who measured on ${day}`,
  excess: (day: string) => `a healthy other limb over the same heights on ${day}`,
  noNew: (limb: string, day: string) => `measurements of the ${limb} after those of ${day}, so that there is nothing to compare`,
  noOld: (limb: string, day: string) => `measurements of the ${limb} of ${day}, to which this piece was made`,
  notComparable: (old: string, now: string) => `anything that puts ${old} and ${now} on the same anatomy, so that no change is given`,
} as const;
