import type { LandmarkId, LimbKind, Side } from '../../ladder/limb';
import { showLength } from '../../units/show-length';
import { dayIn } from './day-format';
import type { FamilyWords, Person } from './family-words';
import { LANGUAGE_NAMES } from './language-names';

/** German, with „Sie“. The garment is called „die Kleidung“: one word for sleeve, stocking, glove and vest. */
export const GERMAN: FamilyWords = {
  language: 'de',
  name: LANGUAGE_NAMES.de,
  direction: 'ltr',
  version: 2,
  title: (person) =>
    person.reader === 'patient'
      ? `Ihr ${noun(person.limb)} und Ihre Kleidung`
      : `${owner(person.name)} ${noun(person.limb)} und die Kleidung`,
  day: (day, _unit, withYear) =>
    dayIn('de', day, { weekday: 'long', month: 'long', day: 'numeric', ...(withYear ? { year: 'numeric' } : {}) }),
  month: (day) => dayIn('de', day, { month: 'long', year: 'numeric' }),
  length: (lengthMm, unit) =>
    unit === 'in' ? `${showLength(lengthMm, unit)} Zoll` : `${showLength(lengthMm, unit).replace(/\.0$/, '').replace('.', ',')} cm`,
  heads: {
    measured: 'Was wir gemessen haben',
    right: 'Passt die Kleidung noch?',
    wear: 'So wird sie getragen und gewaschen',
    next: 'Wie es weitergeht',
    wait: 'Was warten kann',
    call: 'Sofort ausziehen und anrufen',
    note: 'Noch ein Hinweis von uns',
  },
  measured: (person, places) => `Wir haben ${whole(person)} an ${places} ${places === 1 ? 'Stelle' : 'Stellen'} gemessen.`,
  taller: (person, by, since) =>
    person.reader === 'patient' ? `Sie sind ${by} größer als im ${since}.` : `${person.name} ist ${by} größer als im ${since}.`,
  partMeasured: (person, places) => {
    const end = `${ending(person.side, person.limb === 'leg' ? 'en' : 'e')} ${part(person.limb)}`;
    const whose = person.reader === 'patient' ? `${person.limb === 'leg' ? 'Ihren' : 'Ihre'} ${end}` : `${owner(person.name)} ${end}`;
    return `Auch ${whose} haben wir gemessen, an ${places} ${places === 1 ? 'Stelle' : 'Stellen'}.`;
  },
  partLonger: (person, by, since) => `${person.limb === 'leg' ? 'Der Fuß' : 'Die Hand'} ist ${by} länger als im ${since}.`,
  phase: (kind) =>
    ({
      'getting-ready': 'Im Moment bereiten wir alles für die Kleidung vor.',
      reduction: 'Im Moment soll die Schwellung kleiner werden.',
      'interim-garment': 'Im Moment wird eine erste Kleidung getragen. Danach kommt die nach Maß.',
      garments: 'Im Moment gehört die Kleidung zu jedem Tag.',
      'stepping-down': 'Im Moment versuchen wir es mit weniger Stunden.',
      'on-hold': 'Im Moment machen wir eine Pause.',
      ended: 'Unsere Arbeit ist zu Ende.',
    })[kind],
  comparedWith: (month) => `Wir vergleichen mit dem Maß vom ${month}.`,
  change: (person, change) =>
    ({
      first: 'Das sind die ersten Maße. Beim nächsten Mal vergleichen wir damit.',
      'grew-along': `${The(person.limb)} ist mit dem Körper gewachsen.`,
      same: `${The(person.limb)} ist so groß wie beim letzten Mal.`,
      larger: `${The(person.limb)} ist größer, als wir dachten.`,
      smaller: `${The(person.limb)} ist kleiner als beim letzten Mal.`,
      'not-sure': 'Das Maßband gab dieses Mal keine klare Antwort.',
    })[change],
  right: (person, right) =>
    ({
      yes: 'Ja. Sie passt heute gut.',
      soon: 'Ja, heute passt sie. Das bleibt wohl nicht lange so.',
      no: 'Nein. Sie passt jetzt nicht gut.',
      'not-sure': `Das wissen wir noch nicht. Wir wollen ${the(person.limb)} noch einmal messen.`,
    })[right],
  because: (person, why) =>
    ({
      growing: person.reader === 'patient' ? 'Sie wachsen noch.' : `${person.name} wächst.`,
      'less-stretch': 'Der Stoff dehnt sich nicht mehr wie am Anfang.',
      changed: `${The(person.limb)} hat jetzt ein anderes Maß.`,
    })[why],
  hours: (hours) =>
    hours === 24 ? 'Sie wird Tag und Nacht getragen.' : `Sie wird ${hours} ${hours === 1 ? 'Stunde' : 'Stunden'} am Tag getragen.`,
  noHours: 'Sie wird so getragen, wie wir es gezeigt haben.',
  step: (kind) =>
    ({
      visit: 'Sie kommen, und wir messen wieder.',
      remeasure: 'Sie kommen, und wir messen noch einmal.',
      order: 'Wir bestellen die neue Kleidung.',
      delivery: 'Die neue Kleidung soll da sein.',
      'try-on': 'Sie kommen und probieren die neue Kleidung an.',
      call: 'Wir rufen an und fragen, wie es geht.',
    })[kind],
  noStep: 'Ein Tag steht noch nicht fest. Fragen Sie danach, bevor Sie gehen.',
  today: 'Heute',
  by: (day) => `Bis ${day}`,
  callSigns: (limb, watch) => [
    `${ends(limb)} kribbeln oder taub, blau, weiß oder kalt sind`,
    'es stark weh tut oder schlimmer wird',
    'es darüber oder darunter anschwillt',
    'eine Blase da ist',
    'das Schlucken oder Trinken schwerfällt',
    ...(watch.some((one) => one === 'face' || one === 'neck')
      ? ['der Atem laut ist oder im Schlaf aussetzt, oder jemand würgt oder sabbert']
      : watch.includes('chest')
        ? ['der Atem schnell oder kurz ist, oder weniger getrunken wird']
        : []),
    ...(watch.includes('face') || watch.includes('chest') ? ['es heiß ist, und das Gesicht rot wird oder der Kopf weh tut'] : []),
  ],
  callLead: 'Ziehen Sie sie aus, wenn',
  firstDay: 'In den ersten 24 Stunden auch dann ausziehen und anrufen, wenn sie reibt.',
  noPhone: 'Fragen Sie nach unserer Nummer, bevor Sie gehen.',
  noNight: 'Fragen Sie, wen Sie in der Nacht anrufen.',
  night: (said) => (/nacht|wochenende/i.test(said) ? said : `In der Nacht und am Wochenende: ${said}`),
  opens: (closure) =>
    ({
      zip: 'So geht sie auf: Reißverschluss nach unten.',
      'hook-and-loop': 'So geht sie auf: Klettband abziehen.',
      'hook-and-eye': 'So geht sie auf: Haken lösen.',
      placket: 'So geht sie auf: vorne öffnen.',
    })[closure] ?? null,
  ambulance: {
    head: (number) => `Ausziehen und ${number} anrufen`,
    lead: 'Rufen Sie an, wenn',
    minutes: (limb, minutes) => `sie ausgezogen ist und ${ends(limb)} nach ${minutes} Minuten nicht wieder gut sind`,
    signs: [
      'das Atmen sehr schwerfällt, der Atem aussetzt oder die Lippen blau sind',
      'die Brust weh tut, oder jemand ohnmächtig wird',
      'jemand sehr müde oder verwirrt ist, oder Fieber mit Flecken hat',
    ],
    heat: 'jemandem in der Hitze sehr heiß, schwindlig oder schlecht wird',
  },
  sameDay: {
    head: 'Am selben Tag bei uns anrufen',
    lead: 'Rufen Sie an, wenn',
    signs: [
      'ein Arm oder Bein auf einmal dick, heiß oder wund ist',
      'die rote Stelle größer wird, oder Fieber da ist',
      'die Haut offen ist',
      'das Gewicht schnell steigt',
    ],
  },
  nextDay: {
    head: 'Am nächsten Werktag bei uns anrufen',
    lead: 'Rufen Sie an, wenn',
    signs: ['sie zu weit, zu klein, kaputt oder weg ist', 'sie rutscht oder Falten wirft', 'Jucken den Schlaf stört'],
  },
  noAllergies: 'hier nicht notiert',
  tell: (person, wornFor, allergies) =>
    `Sagen Sie dort: ${person.reader === 'patient' ? 'Ich trage' : `${person.name} trägt`} Kleidung mit Druck. Grund: ${wornFor}. Allergien: ${allergies}.`,
  callLine: (phone, night, emergency) => `Ausziehen und anrufen: ${phone}. ${night} Notruf: ${emergency}.`,
  picture: (person, span) => {
    const limb =
      person.reader === 'patient'
        ? `Ihr ${sideOf(person)} ${noun(person.limb)}`
        : `${owner(person.name)} ${sideOf(person)} ${noun(person.limb)}`;
    return span ? `${limb}, ${span.from} bis ${span.to}` : `${limb}, nur der gemessene Teil`;
  },
  end: (landmark, off) => (off ? `${off.by} ${off.above ? 'über' : 'unter'} ${MARKS[landmark].dative}` : MARKS[landmark].name),
  footer: (person, by, day) =>
    `Geprüft von ${by} am ${day}. Dieses Blatt ist für ${person.reader === 'patient' ? 'Sie' : `die Familie von ${person.name}`}. Was Arzt oder Therapie Ihnen sagen, geht vor. Fragen Sie uns immer.`,
  noCare: 'Fragen Sie uns, wie man sie wäscht.',
  plan: {
    head: 'Die ersten Tage',
    days: (first, last) => (last === null ? `Ab Tag ${first}` : first === last ? `Tag ${first}` : `Tag ${first} bis ${last}`),
    hours: (hours, from, to) =>
      `${to === null ? `Ab ${from}` : to === from ? from : `${from} bis ${to}`}: ${hours} ${hours === 1 ? 'Stunde' : 'Stunden'} am Tag.`,
    day: (day) => dayIn('de', day, { month: 'short', day: 'numeric' }),
  },
  reply: {
    head: 'Sagen Sie uns, wie es geht',
    read: 'Wir lesen das, wenn wir in der Klinik sind.',
    urgent: 'Schreiben Sie nicht hier, wenn Sie jetzt Hilfe brauchen.',
    hours: 'Wie viele Stunden am Tag wurde sie getragen?',
    hoursHint: 'Von 0 bis 24. Sie können es leer lassen.',
    hoursWrong: 'Schreiben Sie die Stunden als Zahl von 0 bis 24.',
    marks: ({ limb }) => `Gibt es am ${noun(limb)} eine Stelle, von der wir wissen sollen?`,
    marksHint: 'Wählen Sie die Stelle nach ihrer Zahl.',
    places: {
      leg: ['Knöchel', 'Wade', 'Knie', 'Schenkel', 'Ganz oben am Schenkel'],
      arm: ['Handgelenk', 'Unterarm', 'Ellbogen', 'Oberarm', 'Achsel'],
    },
    nothing: 'nichts',
    signs: { red: 'ein roter Fleck', sore: 'es ist wund', slides: 'es rutscht', other: 'etwas anderes' },
    call: 'Bitte rufen Sie mich an',
    callHint: 'Ist die Nummer neu, schreiben Sie sie unten dazu.',
    words: 'Ein paar Worte, wenn Sie wollen',
    by: 'Wer schreibt das?',
    tooLong: (most) => `Das ist zu lang. Bitte höchstens ${most} Zeichen.`,
    send: 'An die Klinik schicken',
    empty: 'Füllen Sie zuerst ein Feld aus.',
    refused: 'Es ist noch nicht weg. Sehen Sie sich die Felder unten an.',
    ended: 'Der Link gilt nicht mehr. Es wurde nichts geschickt. Bitte rufen Sie an.',
    tooMany: (most) => `Mehr als ${most} am Tag gehen nicht. Es wurde nichts geschickt. Schreiben Sie morgen, oder rufen Sie an.`,
    wait: (minutes) => `Es wurde nichts geschickt. Warten Sie ${minutes === 1 ? 'eine Minute' : `${minutes} Minuten`}, dann noch einmal.`,
    later: 'Es ging nicht. Bitte in einer Minute noch einmal.',
    sentHead: 'Was Sie geschickt haben',
    thanks: 'Danke. Es ist geschickt.',
    state: {
      came: 'Es ist angekommen.',
      open: 'Noch hat niemand notiert, dass es gelesen wurde.',
      seen: (day) => `Wir haben es am ${day} gelesen.`,
      rung: (day) => `Wir haben Sie am ${day} angerufen.`,
      tried: (day) => `Wir haben am ${day} versucht, Sie anzurufen.`,
    },
    said: {
      hours: (hours) => `${String(hours).replace('.', ',')} ${hours === 1 ? 'Stunde' : 'Stunden'} am Tag getragen`,
      call: 'bitte anrufen',
      by: (name) => `von ${name}`,
    },
  },
  defaults: {
    care: 'Zum Baden und Cremen ausziehen. Jeden Tag eine von Hand in warmem Wasser mit milder Seife waschen. Flach trocknen, nicht in der Hitze. Die andere tragen, bis sie trocken ist.',
    wait: 'Spuren der Nähte, die in einer halben Stunde weggehen, sind normal. Ein loser Faden hat Zeit bis zum Termin. Bringen Sie alle Teile mit.',
  },
};

/** The landmarks as a family calls them, alone and after „über“ and „unter“. */
const MARKS: Readonly<Record<LandmarkId, { readonly name: string; readonly dative: string }>> = {
  'ankle-crease': { name: 'Knöchel', dative: 'dem Knöchel' },
  knee: { name: 'Knie', dative: 'dem Knie' },
  'gluteal-fold': { name: 'Falte unter dem Po', dative: 'der Falte unter dem Po' },
  'wrist-crease': { name: 'Handgelenk', dative: 'dem Handgelenk' },
  'elbow-crease': { name: 'Ellbogen', dative: 'dem Ellbogen' },
  'axillary-fold': { name: 'Achsel', dative: 'der Achsel' },
};

function noun(limb: LimbKind): string {
  return limb === 'leg' ? 'Bein' : 'Arm';
}

function the(limb: LimbKind): string {
  return limb === 'leg' ? 'das Bein' : 'den Arm';
}

function The(limb: LimbKind): string {
  return limb === 'leg' ? 'Das Bein' : 'Der Arm';
}

/** `rechten`, `linke`: an adjective with its ending. */
function ending(side: Side, end: string): string {
  return `${side === 'left' ? 'link' : 'recht'}${end}`;
}

/** As the subject: `rechtes Bein`, `linker Arm`. */
function sideOf({ limb, side }: { limb: LimbKind; side: Side }): string {
  return ending(side, limb === 'leg' ? 'es' : 'er');
}

/** As the object: `Miras rechtes Bein`, `Ihren linken Arm`. */
function whole(person: Person): string {
  const { limb, side } = person;
  const name = `${ending(side, limb === 'leg' ? 'es' : 'en')} ${noun(limb)}`;
  return person.reader === 'patient' ? `${limb === 'leg' ? 'Ihr' : 'Ihren'} ${name}` : `${owner(person.name)} ${name}`;
}

/** `Miras`, `Joss’`: Amtliche Regeln der deutschen Rechtschreibung (2018), § 96. */
function owner(name: string): string {
  return /[sßxz]$|ce$/i.test(name) ? `${name}’` : `${name}s`;
}

function part(limb: LimbKind): string {
  return limb === 'leg' ? 'Fuß' : 'Hand';
}

function ends(limb: LimbKind): string {
  return limb === 'leg' ? 'die Zehen' : 'die Finger';
}
