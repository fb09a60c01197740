import type { FhirResource, Observation } from 'fhir/r4';
import type { z } from 'zod';
import { readJson } from '../filed-json';
import { type Extended, extendedText } from './extensions';

/** Thrown and caught while a bundle is read; callers of the reader see a refusal. */
export class BundleRefusal extends Error {}

/** One of a few words that an extension of ours must hold. */
export function oneOf<T extends string>(panel: Observation, name: string, words: readonly T[]): T {
  const text = extendedText(panel, name);
  const found = words.find((word) => word === text);
  if (!found) throw new BundleRefusal(`${named(panel)} has no ${name}.`);
  return found;
}

/** A value that must be there. */
export function needed<T>(of: FhirResource, value: T | undefined): T {
  if (value === undefined)
    throw new BundleRefusal(`${named(of)} has no figure as it was typed, or its value and the text beside it say different things.`);
  return value;
}

/** A part of ours in JSON that a resource must carry. */
export function jsonOf<T>(of: FhirResource & Extended, name: string, shape: z.ZodType<T>): T {
  const text = extendedText(of, name);
  if (text === null) throw new BundleRefusal(`${named(of)} lacks what it was written with.`);
  return json(of, text, shape);
}

/** JSON of a shape. */
export function json<T>(of: FhirResource, text: string, shape: z.ZodType<T>): T {
  const found = readJson(text, shape);
  if (found.kind !== 'read') throw new BundleRefusal(`${named(of)}: ${found.reason}`);
  return found.value;
}

/** What a resource is called when it is refused. */
export function named({ resourceType, id }: FhirResource): string {
  return `${resourceType}/${id ?? ''}`;
}
