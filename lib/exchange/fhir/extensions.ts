import type { Extension } from 'fhir/r4';
import type { KeptDoubt } from '../../ladder/ladder';
import { ownExtension } from './own-codes';

/** Anything that carries extensions. */
export type Extended = { readonly extension?: readonly Extension[] };

/** A text as an extension of ours; none for null or nothing. FHIR strings hold no control characters but tab and line ends. */
export function textExtension(name: string, text: string | null | undefined): Extension[] {
  const allowed = text && fhirText(text);
  return allowed ? [{ url: ownExtension(name), valueString: allowed }] : [];
}

/** A part with a shape of its own, as JSON in an extension of ours; none for null or nothing. */
export function jsonExtension(name: string, value: unknown): Extension[] {
  return value === null || value === undefined ? [] : textExtension(name, JSON.stringify(value));
}

/** A question that was answered "keep": which, by whom and when. */
export function keptExtension({ kind, by, at }: KeptDoubt): Extension {
  return {
    url: ownExtension('kept-question'),
    extension: [
      { url: 'question', valueString: kind },
      { url: 'by', valueString: fhirText(by) },
      { url: 'at', valueDateTime: at },
    ],
  };
}

/** The questions that were kept with a resource. */
export function keptQuestions(of: Extended): KeptDoubt[] {
  return extensionsOf(of, 'kept-question').map(({ extension }) => {
    const part = (url: string) => extension?.find((one) => one.url === url);
    return { kind: part('question')?.valueString ?? '', by: part('by')?.valueString ?? '', at: part('at')?.valueDateTime ?? '' };
  });
}

/** The text of an extension of ours, or null. */
export function extendedText(of: Extended, name: string): string | null {
  return of.extension?.find(({ url }) => url === ownExtension(name))?.valueString ?? null;
}

/** Every extension of ours of that name. */
export function extensionsOf(of: Extended, name: string): readonly Extension[] {
  return of.extension?.filter(({ url }) => url === ownExtension(name)) ?? [];
}

/** A list as FHIR wants it: absent when it is empty. */
export function listed<T>(things: readonly T[]): T[] | undefined {
  return things.length === 0 ? undefined : [...things];
}

/** A text without the characters that FHIR strings do not hold. Source: FHIR R4, datatypes, string. */
export function fhirText(text: string): string {
  return [...text].filter((character) => character >= ' ' || '\t\n\r'.includes(character)).join('');
}
