import type { KnownAnswer } from '@/db/worklist/prompt-answers';

/** The sentence and the facts of a prompt as they were kept with its answer; nothing where an answer holds something else. */
export function asItWasAsked({ asked }: Pick<KnownAnswer, 'asked'>): { readonly title: string | null; readonly facts: readonly string[] } {
  const kept = typeof asked === 'object' && asked !== null ? (asked as { title?: unknown; facts?: unknown }) : {};
  const facts = Array.isArray(kept.facts) ? kept.facts.filter((fact) => typeof fact === 'string') : [];
  return { title: typeof kept.title === 'string' ? kept.title : null, facts };
}
