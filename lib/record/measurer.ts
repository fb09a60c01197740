import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { Visit } from './patient-record';
import { isSamePerson } from './same-person';

/** Who a measurer is: a person of the clinic by id, somebody outside by their role, or a text that is left as it stands. */
export type MeasurerIs =
  | { readonly kind: 'person'; readonly personId: string }
  | { readonly kind: 'outsider'; readonly role: string }
  | { readonly kind: 'left' };

/** What a lead said of a text that visits name a measurer by. The text is kept as its digest alone: it may name somebody of a patient’s family. */
export type MeasurerMatch = { readonly digest: string; readonly is: MeasurerIs };

/** Longest role of an outsider, most texts that are matched. */
export const MEASURER_BOUNDS = { role: 60, most: 2000 } as const;

/** The digest that a text is known by: case and blanks around it do not count. Source: SHA-256, FIPS 180-4. */
export function measurerDigest(text: string): string {
  return bytesToHex(sha256(new TextEncoder().encode(text.trim().toLowerCase().replace(/\s+/g, ' '))));
}

/** What is known of the people who measure: matches by digest, ids of the clinic’s people by their name in small letters. */
export type KnownMeasurers = { readonly matches: ReadonlyMap<string, MeasurerIs>; readonly personOf: ReadonlyMap<string, string> };

/** Matches and people as they are asked; a name that two people of the clinic bear is nobody’s. */
export function knownMeasurers(
  matches: readonly MeasurerMatch[],
  people: readonly { readonly id: string; readonly name: string }[],
): KnownMeasurers {
  const named = new Map<string, string>();
  const twice = new Set<string>();
  for (const { id, name } of people) {
    const key = name.trim().toLowerCase();
    if (named.has(key)) twice.add(key);
    named.set(key, id);
  }
  for (const key of twice) named.delete(key);
  return { matches: new Map(matches.map(({ digest, is }) => [digest, is])), personOf: named };
}

/**
 * Whose a text is: what a lead said of it, else the one person of the clinic of that very name; undefined where nobody knows.
 *
 * Example: `RA`, matched to a person, and `Rosa Adeyemi`, that person’s name, are one identity, `person 17`.
 */
export function measurerIdOf(text: string | null, { matches, personOf }: KnownMeasurers): string | undefined {
  if (!text?.trim()) return undefined;
  const said = matches.get(measurerDigest(text));
  if (said?.kind === 'person') return `person ${said.personId}`;
  if (said?.kind === 'outsider') return `outsider ${said.role.trim().toLowerCase()}`;
  const person = said ? undefined : personOf.get(text.trim().toLowerCase());
  return person && `person ${person}`;
}

/** Whether one person measured both: by identity where both are known, else by the names as they stand (`isSamePerson`). */
export function isSameMeasurer(one: Pick<Visit, 'measurer' | 'measurerId'>, other: Pick<Visit, 'measurer' | 'measurerId'>): boolean {
  if (one.measurerId && other.measurerId) return one.measurerId === other.measurerId;
  return isSamePerson(one.measurer, other.measurer);
}
