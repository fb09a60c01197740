import type { LandmarkId, LimbKind } from '../../ladder/limb';
import { showLength } from '../../units/show-length';
import { dayIn } from './day-format';
import type { FamilyWords, Person } from './family-words';
import { LANGUAGE_NAMES } from './language-names';

/** English. In inches dates are written the American way, in centimetres the British. */
export const ENGLISH: FamilyWords = {
  language: 'en',
  name: LANGUAGE_NAMES.en,
  direction: 'ltr',
  version: 7,
  title: (person) =>
    person.reader === 'patient' ? `Your ${person.limb} and your garment` : `${owner(person.name)} ${person.limb} and garment`,
  day: (day, unit, withYear) =>
    dayIn(unit === 'in' ? 'en-US' : 'en-GB', day, {
      weekday: 'long',
      month: 'long',
      day: 'numeric',
      ...(withYear ? { year: 'numeric' } : {}),
    }),
  month: (day) => dayIn('en-GB', day, { month: 'long', year: 'numeric' }),
  length: (lengthMm, unit) => {
    const text = unit === 'in' ? showLength(lengthMm, unit) : showLength(lengthMm, unit).replace(/\.0$/, '');
    const one = text === '1' || /^[⅛¼⅜½⅝¾⅞]$/.test(text);
    return `${text} ${unit === 'in' ? (one ? 'inch' : 'inches') : 'cm'}`;
  },
  heads: {
    measured: 'What we measured',
    right: 'Is the garment still right?',
    wear: 'How to wear and wash it',
    next: 'What happens next',
    wait: 'When it is fine to wait',
    call: 'Take it off now and call us',
    note: 'From your therapist',
  },
  measured: (person, places) => `We measured ${whose(person)} ${person.side} ${person.limb} in ${places} places.`,
  taller: (person, by, since) =>
    person.reader === 'patient' ? `You are ${by} taller than in ${since}.` : `${person.name} is ${by} taller than in ${since}.`,
  partMeasured: (person, places) =>
    `We measured ${whose(person)} ${person.side} ${end(person.limb)} too, in ${places} ${places === 1 ? 'place' : 'places'}.`,
  partLonger: (person, by, since) =>
    `${person.reader === 'patient' ? 'Your' : 'The'} ${end(person.limb)} is ${by} longer than in ${since}.`,
  phase: (kind) =>
    ({
      'getting-ready': 'Right now we are getting things ready for a garment.',
      reduction: 'Right now we work to bring the swelling down.',
      'interim-garment': 'Right now a first garment is worn. The made one comes next.',
      garments: 'Right now the garment is part of each day.',
      'stepping-down': 'Right now we try fewer hours.',
      'on-hold': 'Right now our work is on hold.',
      ended: 'Our work has come to an end.',
    })[kind],
  comparedWith: (month) => `We compare with the size in ${month}.`,
  change: (person, change) =>
    ({
      first: 'This is our first set of numbers. Next time we will compare with it.',
      'grew-along': `The ${person.limb} grew along with the rest of the body.`,
      same: `The ${person.limb} is the same size as last time.`,
      larger: `The ${person.limb} is bigger than we thought it would be.`,
      smaller: `The ${person.limb} is smaller than last time.`,
      'not-sure': 'The tape did not give a clear answer this time.',
    })[change],
  right: (person, right) =>
    ({
      yes: 'Yes. It fits well today.',
      soon: 'Yes, it fits today. It may not fit for long.',
      no: 'No. It does not fit well now.',
      'not-sure': `We are not sure yet. We want to measure the ${person.limb} again.`,
    })[right],
  because: (person, why) =>
    ({
      growing: person.reader === 'patient' ? 'You are growing.' : `${person.name} is growing.`,
      'less-stretch': 'The fabric has lost some of its stretch.',
      changed: `The ${person.limb} has changed in size.`,
    })[why],
  hours: (hours) => (hours === 24 ? 'Wear it day and night.' : `Wear it ${hours} hours a day.`),
  noHours: 'Wear it as we showed you.',
  step: (kind) =>
    ({
      visit: 'You come in and we measure again.',
      remeasure: 'You come in so that we can measure again.',
      order: 'We order the new garment.',
      delivery: 'The new garment should be here.',
      'try-on': 'You come in to try on the new garment.',
      call: 'We call you to ask how it is going.',
    })[kind],
  noStep: 'We have not set a day yet. Ask us for one before you go home.',
  today: 'Today',
  by: (day) => `By ${day}`,
  callSigns: (limb, watch) => [
    `${ends(limb)} tingle, go numb, look blue or white, or feel cold`,
    'pain is bad, or it gets worse',
    'a part above or below it swells',
    'there is a blister',
    'it is hard to swallow or feed',
    ...(watch.some((part) => part === 'face' || part === 'neck')
      ? ['breath is loud or stops in sleep, or there is choking or drooling']
      : watch.includes('chest')
        ? ['breath is fast or short, or feeds get smaller']
        : []),
    ...(watch.includes('face') || watch.includes('chest') ? ['it is hot, and the face is red or the head aches'] : []),
  ],
  callLead: 'Take it off if',
  firstDay: 'In the first 24 hours, also take it off and call us if it rubs.',
  noPhone: 'Ask us for our phone number before you go home.',
  noNight: 'Ask us whom to call at night.',
  night: (said) => (/night|weekend/i.test(said) ? said : `At night and at weekends: ${said}`),
  opens: (closure) =>
    ({
      zip: 'To open it, pull down the zip.',
      'hook-and-loop': 'To open it, pull the strips apart.',
      'hook-and-eye': 'To open it, undo the hooks.',
      placket: 'To open it, undo the front.',
    })[closure] ?? null,
  ambulance: {
    head: (number) => `Take it off and call ${number}`,
    lead: `Call if`,
    minutes: (limb, minutes) => `it is off, and ${ends(limb)} do not look and feel right in ${minutes} minutes`,
    signs: [
      'it is hard to breathe, there are gaps in the breath, or lips are blue',
      'the chest hurts, or someone faints',
      'someone is very sleepy or mixed up, or has a fever with blotches',
    ],
    heat: 'someone gets very hot, dizzy or faint in the heat',
  },
  sameDay: {
    head: 'Call us the same day',
    lead: 'Call if',
    signs: ['one limb is all at once big, hot or sore', 'red skin spreads, or there is a fever', 'skin is open', 'weight goes up fast'],
  },
  nextDay: {
    head: 'Call us the next work day',
    lead: 'Call if',
    signs: ['it is loose, torn, lost or too small', 'it slips or folds', 'itch stops sleep'],
  },
  noAllergies: 'not written down here',
  tell: (person, wornFor, allergies) =>
    `Tell them: ${person.reader === 'patient' ? 'I wear' : `${person.name} wears`} a pressure garment for ${wornFor}. Allergies: ${allergies}.`,
  callLine: (phone, night, emergency) => `Take it off and call ${phone}. ${night} Emergency: ${emergency}.`,
  picture: (person, ends) => {
    const limb = `${person.reader === 'patient' ? 'Your' : owner(person.name)} ${person.side} ${person.limb}`;
    return ends ? `${limb}, from ${ends.from} up to ${ends.to}` : `${limb}, just the part that we measured`;
  },
  end: (landmark, off) => (off ? `${off.by} ${off.above ? 'above' : 'below'} ${MARKS[landmark]}` : MARKS[landmark]),
  footer: (person, by, day) =>
    `Checked by ${by} on ${day}. This page is for ${person.reader === 'patient' ? 'you' : `${owner(person.name)} family`}. What your doctor or therapist tells you comes first. You can always ask us.`,
  noCare: 'Ask us how to wash it.',
  plan: {
    head: 'Your first days',
    days: (first, last) => (last === null ? `From day ${first} on` : first === last ? `Day ${first}` : `Days ${first} to ${last}`),
    hours: (hours, from, to) =>
      `${to === null ? `From ${from}` : to === from ? from : `${from} to ${to}`}: ${hours} ${hours === 1 ? 'hour' : 'hours'} a day.`,
    day: (day, unit) => dayIn(unit === 'in' ? 'en-US' : 'en-GB', day, { month: 'short', day: 'numeric' }),
  },
  reply: {
    head: 'Tell us how it goes',
    read: 'We read this when the clinic is open.',
    urgent: 'Do not use this if you need help now.',
    hours: 'How many hours a day was it worn?',
    hoursHint: 'From 0 to 24. You may leave it empty.',
    hoursWrong: 'Type the hours as a number from 0 to 24.',
    marks: ({ limb }) => `Is there a place on the ${limb} we should know of?`,
    marksHint: 'Choose it by its number.',
    places: {
      leg: ['Ankle', 'Calf', 'Knee', 'Thigh', 'Top of the thigh'],
      arm: ['Wrist', 'Forearm', 'Elbow', 'Upper arm', 'Armpit'],
    },
    nothing: 'nothing',
    signs: { red: 'a red mark', sore: 'it is sore', slides: 'it slides', other: 'something else' },
    call: 'Please call me',
    callHint: 'If your number is new, write it in the box below.',
    words: 'A few words, if you like',
    by: 'Who writes this?',
    tooLong: (most) => `This is too long. Use ${most} letters or less.`,
    send: 'Send it to the clinic',
    empty: 'Fill in one of the boxes first.',
    refused: 'It is not sent yet. Look at the boxes below.',
    ended: 'This link has run out. It was not sent. Please call us.',
    tooMany: (most) => `You can send ${most} a day. It was not sent. Try again tomorrow, or call us.`,
    wait: (minutes) => `It was not sent. Wait ${minutes === 1 ? 'a minute' : `${minutes} minutes`}, then try again.`,
    later: 'It could not be sent. Please try again in a minute.',
    sentHead: 'What you sent',
    thanks: 'Thank you. It is sent.',
    state: {
      came: 'It has come in.',
      open: 'Nobody has noted yet that it was read.',
      seen: (day) => `We read it on ${day}.`,
      rung: (day) => `We called you on ${day}.`,
      tried: (day) => `We tried to call you on ${day}.`,
    },
    said: { hours: (hours) => `worn ${hours} ${hours === 1 ? 'hour' : 'hours'} a day`, call: 'please call', by: (name) => `from ${name}` },
  },
  defaults: {
    care: 'Take it off for the bath and for cream. Wash one each day by hand in warm water with mild soap. Lay it flat to dry, away from heat. Wear the other one while it dries.',
    wait: 'Marks from the seams that fade in half an hour are normal. A loose thread can wait until your visit. Bring every garment with you.',
  },
};

/** The landmarks as a family calls them. */
const MARKS: Readonly<Record<LandmarkId, string>> = {
  'ankle-crease': 'the ankle',
  knee: 'the knee',
  'gluteal-fold': 'the fold under the bottom',
  'wrist-crease': 'the wrist',
  'elbow-crease': 'the elbow',
  'axillary-fold': 'the armpit',
};

/** `Mira’s`, `Joss’` */
function owner(name: string): string {
  return /s$/i.test(name) ? `${name}’` : `${name}’s`;
}

function whose(person: Person): string {
  return person.reader === 'patient' ? 'your' : owner(person.name);
}

/** What is at the end of a limb. */
function end(limb: LimbKind): string {
  return limb === 'leg' ? 'foot' : 'hand';
}

function ends(limb: LimbKind): string {
  return limb === 'leg' ? 'toes' : 'fingers';
}
