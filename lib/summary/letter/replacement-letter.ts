import { affectedInWords } from '../../record/patient-record';
import { clockInWords } from '../../schedule/coverage-of-patient';
import { showDay } from '../../units/calendar-day';
import { type LetterTable, letterEvidence } from './letter-evidence';
import type { LetterFacts } from './letter-facts';
import { garmentKind } from './letter-kind';
import { isExcepted, type LetterReason } from './letter-reasons';
import { LETTER_HEADS, LETTER_VERSION, LETTER_WORDS, type SectionKey } from './letter-words';
import type { LetterChoice } from './read-letter-form';

/** One section of the letter: paragraphs, then tables. */
export type LetterSection = {
  readonly key: SectionKey;
  readonly head: string;
  readonly paragraphs: readonly string[];
  readonly tables: readonly LetterTable[];
};

/** A letter as it is signed and frozen: text only, nothing is looked up again. */
export type ReplacementLetter = {
  readonly version: number;
  readonly language: 'en';
  readonly clinic: string;
  readonly title: string;
  readonly reference: string;
  /** Label of the piece that is to be replaced. */
  readonly piece: string;
  readonly reason: LetterReason;
  readonly sections: readonly LetterSection[];
  readonly signature: { readonly name: string; readonly credentials: string; readonly day: string };
  readonly protocol: string;
};

/**
 * The letter that asks a payer to replace a piece: up to twelve sections from what is on record and what the therapist typed and chose.
 *
 * Takes no verdict and no prompt. Figures and the count of coverage come from the record and are not edited; of what is missing the letter
 * says nothing, and a section without a word is left out. Shape: the facts, the therapist's choice, the clinic's name. Source: published coverage rules; common practice.
 */
export function replacementLetter(facts: LetterFacts, choice: LetterChoice, clinic: string): ReplacementLetter {
  const evidence = letterEvidence(facts, choice.reason);
  const paragraphs: Readonly<Record<SectionKey, readonly string[]>> = {
    who: who(facts, choice),
    diagnosis: diagnosis(facts, choice),
    prescriber: [
      LETTER_WORDS.prescriber(choice.prescriber),
      ...(choice.orderDay ? [LETTER_WORDS.orderDay(showDay(choice.orderDay))] : []),
      ...(choice.orderHeld ? [LETTER_WORDS.held] : []),
    ],
    asked: [choice.asked],
    custom: [...(choice.custom.length > 0 ? [LETTER_WORDS.custom(choice.custom.join('; '))] : []), ...own(choice.customWords)],
    replaces: [choice.replaces],
    reason: reason(choice),
    evidence: [...evidence.sentences, ...own(choice.evidenceWords)],
    effect: own(choice.effect),
    wear: own(choice.wear),
    coverage: [...coverageSentences(facts, choice.reason), ...own(choice.coverageWords)],
    signature: choice.attachments === '' ? [] : [LETTER_WORDS.attachments(choice.attachments)],
  };
  return {
    version: LETTER_VERSION,
    language: 'en',
    clinic,
    title: LETTER_WORDS.title(garmentKind(facts.order?.garment ?? facts.piece.garment)),
    reference: facts.reference,
    piece: facts.piece.piece,
    reason: choice.reason,
    sections: (Object.keys(LETTER_HEADS) as SectionKey[])
      .map((key) => ({
        key,
        head: LETTER_HEADS[key],
        paragraphs: paragraphs[key].map(ended),
        tables: key === 'evidence' ? evidence.tables : [],
      }))
      .filter((section) => section.paragraphs.length > 0 || section.tables.length > 0),
    signature: { name: choice.signer, credentials: choice.credentials, day: showDay(facts.today) },
    protocol: LETTER_WORDS.protocol,
  };
}

/** Where the payer's clock stands for the limb, and whether the reason is an exception of the rule; the clock alone before one is chosen. */
export function coverageSentences({ coverage }: LetterFacts, chosen: LetterReason | null): string[] {
  if (!coverage) return [];
  const { rule, from, clocks } = coverage;
  return [
    LETTER_WORDS.rule(rule.payer, showDay(from), rule.source),
    ...clocks.map(clockInWords),
    ...(chosen ? [(isExcepted(rule, chosen) ? LETTER_WORDS.excepted : LETTER_WORDS.notExcepted)(chosen)] : []),
  ];
}

function who({ name, reference, born, today }: LetterFacts, { payer, payerNumber }: LetterChoice): string[] {
  return [
    LETTER_WORDS.patient(name ?? LETTER_WORDS.unnamed, reference, showDay(born)),
    LETTER_WORDS.payer(payer),
    ...(payerNumber === '' ? [] : [LETTER_WORDS.payerNumber(payerNumber)]),
    LETTER_WORDS.letterDay(showDay(today)),
  ];
}

function diagnosis({ affected, affectedParts, phase }: LetterFacts, choice: LetterChoice): string[] {
  const limbs = affectedInWords({ affected, affectedParts });
  return [
    LETTER_WORDS.diagnosis(choice.diagnosis),
    ...(choice.onset === '' ? [] : [LETTER_WORDS.onset(choice.onset)]),
    ...(limbs === '' ? [] : [LETTER_WORDS.affected(limbs)]),
    ...(phase ? [LETTER_WORDS.phase(phase.words, showDay(phase.phase.from), phase.baseline && showDay(phase.baseline))] : []),
  ];
}

function reason({ reason: code, incidentDay, reasonWords }: LetterChoice): string[] {
  const words = incidentDay ? [LETTER_WORDS.incident(showDay(incidentDay), reasonWords)] : own(reasonWords);
  return [LETTER_WORDS.reason(code), ...words];
}

/** A sentence of its own, also where a person typed it without its full stop. */
function ended(words: string): string {
  return /[.!?:]$/.test(words.trim()) ? words : `${words.trim()}.`;
}

function own(words: string): string[] {
  return words === '' ? [] : [words];
}
