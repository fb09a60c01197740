import type { ObservedKind } from '../kind';

/** A mark on the skin, at its place on the limb, until it is gone. */
export const SKIN_MARK: ObservedKind = {
  id: 'skin-mark',
  version: '1',
  label: 'Marks on the skin',
  asks: 'What is seen or felt, and where on the limb?',
  items: [{ id: 'size-mm', label: 'Largest width', unit: 'mm', low: 1, high: 500 }],
  where: 'place',
  choices: ['red', 'open', 'blister', 'pain', 'itch', 'numb'],
  error: null,
  source: 'Common practice: place and width are noted so that the next person looks at the same mark.',
};
