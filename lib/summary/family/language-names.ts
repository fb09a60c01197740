/** The languages of the family page, each by its own name for itself, as screens show them everywhere. */
export const LANGUAGE_NAMES = { en: 'English', es: 'Español', de: 'Deutsch' } as const;

/** A language of the family page. */
export type FamilyLanguage = keyof typeof LANGUAGE_NAMES;

/** Every language, in the order it is offered. */
export const LANGUAGES = Object.keys(LANGUAGE_NAMES) as FamilyLanguage[];
