import { parseISO } from 'date-fns';
import type { LandmarkId, LimbKind, Side } from '../../ladder/limb';
import { showLength } from '../../units/show-length';
import type { FamilyWords, Person } from './family-words';
import { LANGUAGE_NAMES } from './language-names';

/** Spanish, to `usted`. */
export const SPANISH: FamilyWords = {
  language: 'es',
  name: LANGUAGE_NAMES.es,
  direction: 'ltr',
  version: 2,
  title: (person) =>
    person.reader === 'patient' ? `Su ${part(person.limb)} y su prenda` : `${The(person.limb)} y la prenda de ${person.name}`,
  day: (day, _unit, withYear) =>
    new Intl.DateTimeFormat('es', { weekday: 'long', month: 'long', day: 'numeric', ...(withYear ? { year: 'numeric' } : {}) })
      .format(parseISO(day))
      .replace(',', ''),
  month: (day) => new Intl.DateTimeFormat('es', { month: 'long', year: 'numeric' }).format(parseISO(day)),
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
    call: 'Quítela y llámenos',
    note: 'De su terapeuta',
  },
  measured: (person, places) => `Medimos ${whole(person)} con la cinta en ${places} sitios.`,
  taller: (person, by, since) =>
    person.reader === 'patient' ? `Usted mide ${by} más que en ${since}.` : `${person.name} mide ${by} más que en ${since}.`,
  change: (person, change) =>
    ({
      first: 'Son las primeras medidas. La próxima vez las vamos a comparar.',
      'grew-as-hoped': `${The(person.limb)} creció junto con el resto del cuerpo. Es lo que queríamos ver.`,
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
      'wearing-thin': 'La tela se está gastando.',
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
  callSigns: (limb) => [
    `los dedos${limb === 'leg' ? ' del pie' : ''} se ven azules o blancos, o están fríos`,
    `los dedos${limb === 'leg' ? ' del pie' : ''} le cosquillean o se le duermen`,
    'hay un dolor nuevo, una ampolla o la piel abierta',
    'la piel se pone roja y caliente, o hay fiebre',
    'se hincha una parte más arriba o más abajo',
  ],
  callLead: 'Llame el mismo día si',
  noPhone: 'Pida nuestro teléfono antes de irse a casa.',
  emergency: (number) => `Si el color o el tacto no vuelve pronto, llame al ${number}.`,
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
  defaults: {
    care: 'Quítela para el baño y para la crema. Lave una cada día a mano con agua tibia y jabón suave. Séquela plana, lejos del calor. Use la otra mientras se seca.',
    wait: 'Las marcas de las costuras que se van en media hora son normales. Una parte floja o un hueco chico puede esperar a la cita. Traiga todas las prendas.',
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
