import type { Prompt, PromptAction } from '@/lib/prompts/prompt';

/** The act in the words of a button. */
export const ACT_WORDS: Readonly<Record<PromptAction, string>> = {
  refer: 'Told the prescriber',
  review: 'Reviewed',
  'repeat-reading': 'Tape again',
  remeasure: 'Tape now',
  refit: 'Tape and refit',
  order: 'Start the order',
  'let-out': 'Let it out',
  'first-fit': 'Record the check',
  visit: 'Start the visit',
};

/** Where an act is done: the ladder sheet, a new piece, the piece itself, or back to the patient for what happens elsewhere. */
export function afterActing(patientId: string, prompt: Pick<Prompt, 'action' | 'about'>): string {
  switch (prompt.action) {
    case 'repeat-reading':
    case 'remeasure':
    case 'refit':
    case 'visit':
      return `/patients/${patientId}/visits/new`;
    case 'order':
      return `/patients/${patientId}/orders/new${prompt.about.piece ? `?after=${encodeURIComponent(prompt.about.piece)}` : ''}`;
    default:
      return `/patients/${patientId}`;
  }
}
