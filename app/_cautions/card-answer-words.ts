import type { CardAnswer } from '@/lib/record/caution-answer';

/** An answer in a word; every card's question can be answered so. */
export const CARD_ANSWER_WORDS: Readonly<Record<CardAnswer, string>> = { present: 'Yes', absent: 'No', 'not-known': 'Not known' };
