/** Words of the page that a family takes home when care here ends; a language is one entry. Without one of its own a person gets English. */
export type AfterwardsWords = {
  readonly title: string;
  readonly supplies: string;
  readonly noSupplier: string;
  readonly wayBack: string;
  readonly noWayBack: string;
  readonly call: string;
  readonly emergency: (number: string) => string;
};

export const AFTERWARDS: Readonly<Record<string, AfterwardsWords>> = {
  en: {
    title: 'From now on',
    supplies: 'Your next garment comes from',
    noSupplier: 'Ask us who makes your next garment.',
    wayBack: 'How to come back',
    noWayBack: 'Call us. We will tell you how to come back.',
    call: 'Call us',
    emergency: (number) => `In an emergency call ${number}.`,
  },
  es: {
    title: 'A partir de ahora',
    supplies: 'Su próxima prenda viene de',
    noSupplier: 'Pregúntenos quién hace su próxima prenda.',
    wayBack: 'Cómo volver',
    noWayBack: 'Llámenos. Le diremos cómo volver.',
    call: 'Llámenos',
    emergency: (number) => `En una emergencia llame al ${number}.`,
  },
};

/** The words in a person's language, and which language they are in. */
export function afterwardsWords(language: string): { readonly language: string; readonly words: AfterwardsWords } {
  const words = AFTERWARDS[language];
  return words ? { language, words } : { language: 'en', words: AFTERWARDS.en as AfterwardsWords };
}
