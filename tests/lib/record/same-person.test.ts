import { describe, expect, it } from 'vitest';
import { takenFor } from '@/lib/record/same-person';

describe('a measurer written otherwise than before', () => {
  it.each([
    ['RA', ['R. Adeyemi', 'S. Brandt'], 'R. Adeyemi'],
    ['Rosa Adeyemi', ['R. Adeyemi'], 'R. Adeyemi'],
    ['R. Adeyemi', ['RA'], 'RA'],
  ])('%s beside %s is taken for %s', (typed, onRecord, taken) => {
    expect(takenFor(typed, onRecord)).toBe(taken);
  });

  it.each([
    ['as it stands on record', 'RA', ['RA', 'R. Adeyemi']],
    ['that two would fit', 'RA', ['R. Adeyemi', 'R. Alvarez']],
    ['of somebody new', 'M. Okafor', ['R. Adeyemi']],
    ['not written', '  ', ['R. Adeyemi']],
  ])('a name %s is left alone', (_, typed, onRecord) => {
    expect(takenFor(typed, onRecord)).toBeUndefined();
  });
});
