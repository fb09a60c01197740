import type { LandmarkId, LimbKind, Side } from '../../ladder/limb';
import { showLength } from '../../units/show-length';
import { dayIn } from './day-format';
import type { FamilyWords, Person } from './family-words';
import { LANGUAGE_NAMES } from './language-names';

/** Spanish, to `usted`. */
export const SPANISH: FamilyWords = {
  language: 'es',
  name: LANGUAGE_NAMES.es,
  direction: 'ltr',
  version: 7,
  title: (person) =>
    person.reader === 'patient' ? `Su ${part(person.limb)} y su prenda` : `${The(person.limb)} y la prenda de ${person.name}`,
  day: (day, _unit, withYear) =>
    dayIn('es', day, { weekday: 'long', month: 'long', day: 'numeric', ...(withYear ? { year: 'numeric' } : {}) }).replace(',', ''),
  month: (day) => dayIn('es', day, { month: 'long', year: 'numeric' }),
  length: (lengthMm, unit) => {
    const text = unit === 'in' ? showLength(lengthMm, unit) : showLength(lengthMm, unit).replace(/\.0$/, '').replace('.', ',');
    const one = text === '1' || /^[⅛¼⅜½⅝¾⅞]$/.test(text);
    return `${text} ${unit === 'in' ? (one ? 'pulgada' : 'pulgadas') : 'cm'}`;
  },
  heads: {
    measured: 'Qué medimos',
    right: '¿La prenda está bien todavía?',
    wear: 'Cómo usarla y lavarla',
    next: 'Qué sigue ahora',
    wait: 'Cuándo puede esperar',
    call: 'Quítela ya y llámenos',
    note: 'De su terapeuta',
  },
  measured: (person, places) => `Medimos ${whole(person)} con la cinta en ${places} sitios.`,
  taller: (person, by, since) =>
    person.reader === 'patient' ? `Usted mide ${by} más que en ${since}.` : `${person.name} mide ${by} más que en ${since}.`,
  partMeasured: (person, places) => {
    const end =
      person.limb === 'leg'
        ? `pie ${person.side === 'left' ? 'izquierdo' : 'derecho'}`
        : `mano ${person.side === 'left' ? 'izquierda' : 'derecha'}`;
    const whose = person.reader === 'patient' ? `su ${end}` : `${person.limb === 'leg' ? 'el' : 'la'} ${end} de ${person.name}`;
    return `También medimos ${whose} en ${places} ${places === 1 ? 'sitio' : 'sitios'}.`;
  },
  partLonger: (person, by, since) => {
    const end = person.limb === 'leg' ? 'pie' : 'mano';
    const whose = person.reader === 'patient' ? `Su ${end}` : person.limb === 'leg' ? 'El pie' : 'La mano';
    return `${whose} mide ${by} más que en ${since}.`;
  },
  phase: (kind) =>
    ({
      'getting-ready': 'Ahora preparamos todo para la prenda.',
      reduction: 'Ahora trabajamos para bajar la hinchazón.',
      'interim-garment': 'Ahora se usa una primera prenda. Luego llega la hecha a medida.',
      garments: 'Ahora la prenda es parte de cada día.',
      'stepping-down': 'Ahora probamos menos horas.',
      'on-hold': 'Ahora hacemos una pausa.',
      ended: 'Nuestro trabajo ha terminado.',
    })[kind],
  comparedWith: (month) => `Comparamos con el tamaño de ${month}.`,
  change: (person, change) =>
    ({
      first: 'Son las primeras medidas. La próxima vez las vamos a comparar.',
      'grew-along': `${The(person.limb)} creció junto con el resto del cuerpo.`,
      same: `${The(person.limb)} mide lo mismo que la última vez.`,
      larger: `${The(person.limb)} está más ${person.limb === 'leg' ? 'gruesa' : 'grueso'} de lo que pensamos.`,
      smaller: `${The(person.limb)} mide menos que la última vez.`,
      'not-sure': 'Esta vez la cinta no dio un dato claro.',
    })[change],
  right: (person, right) =>
    ({
      yes: 'Sí. Hoy le queda bien.',
      soon: 'Sí, hoy le queda bien. Puede que no por mucho tiempo.',
      no: 'No. Ahora no le queda bien.',
      'not-sure': `No lo sabemos todavía. Queremos medir ${the(person.limb)} una vez más.`,
    })[right],
  because: (person, why) =>
    ({
      growing: person.reader === 'patient' ? 'Usted está creciendo.' : `${person.name} está creciendo.`,
      'less-stretch': 'La tela ya no estira como antes.',
      changed: `${The(person.limb)} cambió de tamaño.`,
    })[why],
  hours: (hours) => (hours === 24 ? 'Úsela de día y de noche.' : `Úsela ${hours} horas al día.`),
  noHours: 'Úsela como le enseñamos.',
  step: (kind) =>
    ({
      visit: 'Usted viene y medimos otra vez.',
      remeasure: 'Usted viene y medimos una vez más.',
      order: 'Pedimos la prenda nueva.',
      delivery: 'La prenda nueva debe llegar.',
      'try-on': 'Usted viene a probar la prenda nueva.',
      call: 'Le llamamos para saber cómo va.',
    })[kind],
  noStep: 'Aún no hay un día fijo. Pida uno antes de irse a casa.',
  today: 'Hoy',
  by: (day) => `Antes del ${day}`,
  callSigns: (limb, watch) => [
    `los dedos${limb === 'leg' ? ' del pie' : ''} se duermen, se ven azules o blancos, o están fríos`,
    'el dolor es fuerte, o crece',
    'se hincha una parte más arriba o más abajo',
    'sale una ampolla',
    'le cuesta tragar o comer',
    ...(watch.some((part) => part === 'face' || part === 'neck')
      ? ['hace ruido al respirar, deja de respirar al dormir, se atraganta o babea']
      : watch.includes('chest')
        ? ['respira muy rápido o come menos']
        : []),
    ...(watch.includes('face') || watch.includes('chest') ? ['hace calor, y la cara se pone roja o le duele la cabeza'] : []),
  ],
  callLead: 'Quítela si',
  firstDay: 'En las primeras 24 horas, quítela y llame también si roza.',
  noPhone: 'Pida nuestro teléfono antes de irse a casa.',
  noNight: 'Pregunte a quién llamar de noche.',
  night: (said) => (/noche|fin(es)? de semana/i.test(said) ? said : `De noche y los fines de semana: ${said}`),
  opens: (closure) =>
    ({
      zip: 'Para abrirla, baje el cierre.',
      'hook-and-loop': 'Para abrirla, separe las tiras.',
      'hook-and-eye': 'Para abrirla, suelte los ganchos.',
      placket: 'Para abrirla, suelte el frente.',
    })[closure] ?? null,
  ambulance: {
    head: (number) => `Quítela y llame al ${number}`,
    lead: 'Llame si',
    minutes: (limb, minutes) =>
      `ya se la quitó y los dedos${limb === 'leg' ? ' del pie' : ''} no vuelven a estar bien en ${minutes} minutos`,
    signs: [
      'le cuesta mucho respirar, deja de respirar, o tiene los labios azules',
      'le duele el pecho, o se desmaya',
      'tiene mucho sueño o no sabe dónde está, o tiene fiebre y manchas',
    ],
    heat: 'con el calor se pone muy caliente, se marea o se cae',
  },
  sameDay: {
    head: 'Llámenos el mismo día',
    lead: 'Llame si',
    signs: [
      'un brazo o una pierna se pone de pronto grande, caliente o le duele',
      'la piel roja se extiende, o hay fiebre',
      'la piel está abierta',
      'sube de peso muy rápido',
    ],
  },
  nextDay: {
    head: 'Llámenos el próximo día de trabajo',
    lead: 'Llame si',
    signs: ['está floja, rota o chica, o la perdió', 'se baja o se dobla', 'la comezón no deja dormir'],
  },
  noAllergies: 'aquí no hay nada anotado',
  tell: (person, wornFor, allergies) =>
    `Dígales: ${person.reader === 'patient' ? 'uso' : `${person.name} usa`} una prenda de presión por ${wornFor}. Alergias: ${allergies}.`,
  callLine: (phone, night, emergency) => `Quítela y llame al ${phone}. ${night} Emergencia: ${emergency}.`,
  picture: (person, ends) => {
    const limb =
      person.reader === 'patient' ? `Su ${part(person.limb)} ${sideOf(person)}` : `${The(person.limb)} ${sideOf(person)} de ${person.name}`;
    return ends ? `${limb}, desde ${ends.from} hasta ${ends.to}` : `${limb}, solo la parte que medimos`;
  },
  end: (landmark, off) => {
    const [gender, mark] = MARKS[landmark];
    const article = gender === 'f' ? 'la' : 'el';
    if (!off) return `${article} ${mark}`;
    return `${off.by} más ${off.above ? 'arriba' : 'abajo'} ${gender === 'f' ? 'de la' : 'del'} ${mark}`;
  },
  footer: (person, by, day) =>
    `Lo revisó ${by} el ${day}. Esta hoja es para ${person.reader === 'patient' ? 'usted' : `la familia de ${person.name}`}. Lo que diga su médico o su terapeuta va primero. Siempre nos puede preguntar.`,
  noCare: 'Pregunte cómo se lava.',
  plan: {
    head: 'Los primeros días',
    days: (first, last) => (last === null ? `Desde el día ${first}` : first === last ? `Día ${first}` : `Días ${first} a ${last}`),
    hours: (hours, from, to) =>
      `${to === null ? `Desde el ${from}` : to === from ? `El ${from}` : `Del ${from} al ${to}`}: ${hours} ${hours === 1 ? 'hora' : 'horas'} al día.`,
    day: (day) => dayIn('es', day, { month: 'short', day: 'numeric' }),
  },
  reply: {
    head: 'Cuéntenos cómo va',
    read: 'Lo leemos cuando la clínica está abierta.',
    urgent: 'No lo use si necesita ayuda ya.',
    hours: '¿Cuántas horas al día la usó?',
    hoursHint: 'De 0 a 24. Puede dejarlo vacío.',
    hoursWrong: 'Escriba las horas con un número de 0 a 24.',
    marks: ({ limb }) => `¿Hay un sitio ${limb === 'leg' ? 'de la pierna' : 'del brazo'} que debamos conocer?`,
    marksHint: 'Elija el sitio por su número.',
    places: {
      leg: ['Tobillo', 'Pantorrilla', 'Rodilla', 'Muslo', 'Arriba del muslo'],
      arm: ['Muñeca', 'Antebrazo', 'Codo', 'Brazo, arriba del codo', 'Axila'],
    },
    nothing: 'nada',
    signs: { red: 'una marca roja', sore: 'duele', slides: 'la prenda se baja', other: 'otra cosa' },
    call: 'Llámenme, por favor',
    callHint: 'Si su número es nuevo, escríbalo abajo.',
    words: 'Unas palabras, si quiere',
    by: '¿Quién lo escribe?',
    tooLong: (most) => `Es muy largo. Use ${most} letras o menos.`,
    send: 'Enviarlo a la clínica',
    empty: 'Primero llene una de las casillas.',
    refused: 'Aún no se envió. Mire las casillas de abajo.',
    ended: 'El enlace ha caducado. No se envió. Llámenos, por favor.',
    tooMany: (most) => `Puede enviar ${most} al día. No se envió. Pruebe mañana, o llámenos.`,
    wait: (minutes) => `No se envió. Espere ${minutes === 1 ? 'un minuto' : `${minutes} minutos`} y pruebe otra vez.`,
    later: 'No se pudo enviar. Pruebe otra vez en un minuto.',
    sentHead: 'Lo que usted envió',
    thanks: 'Gracias. Ya está enviado.',
    state: {
      came: 'Ha llegado.',
      open: 'Aún nadie ha anotado que se leyó.',
      seen: (day) => `Lo leímos el ${day}.`,
      rung: (day) => `Le llamamos el ${day}.`,
      tried: (day) => `Intentamos llamarle el ${day}.`,
    },
    said: {
      hours: (hours) => `la usó ${String(hours).replace('.', ',')} ${hours === 1 ? 'hora' : 'horas'} al día`,
      call: 'pide que le llamen',
      by: (name) => `de ${name}`,
    },
  },
  defaults: {
    care: 'Quítela para el baño y para la crema. Lave una cada día a mano con agua tibia y jabón suave. Séquela plana, lejos del calor. Use la otra mientras se seca.',
    wait: 'Las marcas de las costuras que se van en media hora son normales. Un hilo suelto puede esperar a la cita. Traiga todas las prendas.',
  },
};

/** The landmarks as a family calls them, with their gender. */
const MARKS: Readonly<Record<LandmarkId, readonly ['f' | 'm', string]>> = {
  'ankle-crease': ['m', 'tobillo'],
  knee: ['f', 'rodilla'],
  'gluteal-fold': ['m', 'pliegue debajo de la nalga'],
  'wrist-crease': ['f', 'muñeca'],
  'elbow-crease': ['m', 'codo'],
  'axillary-fold': ['f', 'axila'],
};

function part(limb: LimbKind): string {
  return limb === 'leg' ? 'pierna' : 'brazo';
}

function the(limb: LimbKind): string {
  return limb === 'leg' ? 'la pierna' : 'el brazo';
}

function The(limb: LimbKind): string {
  return limb === 'leg' ? 'La pierna' : 'El brazo';
}

function sideOf({ limb, side }: { limb: LimbKind; side: Side }): string {
  const stem = side === 'left' ? 'izquierd' : 'derech';
  return `${stem}${limb === 'leg' ? 'a' : 'o'}`;
}

/** `la pierna derecha de Mira`, `su brazo izquierdo` */
function whole(person: Person): string {
  const name = `${part(person.limb)} ${sideOf(person)}`;
  return person.reader === 'patient' ? `su ${name}` : `${person.limb === 'leg' ? 'la' : 'el'} ${name} de ${person.name}`;
}
