import { ENGLISH } from './english';
import type { FamilyWords } from './family-words';
import { GERMAN } from './german';
import { SPANISH } from './spanish';

/** Every language of the family page. A further one is one more file and one line here. */
export const FAMILY_LANGUAGES: readonly FamilyWords[] = [ENGLISH, SPANISH, GERMAN];

/** The words of a language; English where it is not among them. */
export function familyWords(language: string): FamilyWords {
  return FAMILY_LANGUAGES.find((one) => one.language === language) ?? ENGLISH;
}
