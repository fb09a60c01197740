/**
 * The database cannot be used, in one sentence that a person can act on.
 *
 * It carries no stack: whoever started the program needs the sentence, not the place in the code.
 */
export class DatabaseRefused extends Error {
  constructor(sentence: string) {
    super(sentence);
    this.name = 'DatabaseRefused';
    this.stack = sentence;
  }
}
