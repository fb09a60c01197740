import { describe, expect, it } from 'vitest';
import { isSameMeasurer, knownMeasurers, measurerDigest, measurerIdOf } from '@/lib/record/measurer';

const PEOPLE = [
  { id: '17', name: 'Rosa Adeyemi' },
  { id: '18', name: 'Kit Dunn' },
];
const known = knownMeasurers(
  [
    { digest: measurerDigest('RA'), is: { kind: 'person', personId: '17' } },
    { digest: measurerDigest('mum'), is: { kind: 'outsider', role: 'Mother at home' } },
    { digest: measurerDigest('Kit Dunn'), is: { kind: 'left' } },
  ],
  PEOPLE,
);
const idOf = (text: string | null) => measurerIdOf(text, known);
const by = (measurer: string) => {
  const measurerId = idOf(measurer);
  return measurerId ? { measurer, measurerId } : { measurer };
};

describe('who measured', () => {
  /** SHA-256 of `ra` by Python's hashlib. */
  it('a text is known by its digest, whatever its case and blanks', () => {
    expect(measurerDigest(' R  A ')).toBe(measurerDigest('r a'));
    expect(measurerDigest('RA')).toBe('37e7702e5ce449c1225fa1b3b3ed8e2dff35d24464d9264a4c2bebf3e0deee05');
  });

  it('is who a lead said, else the one person of that name; a name two bear is nobody’s', () => {
    expect([idOf('RA'), idOf('rosa adeyemi'), idOf(' Mum ')]).toEqual(['person 17', 'person 17', 'outsider mother at home']);
    expect([idOf('Kit Dunn'), idOf('R. Alvarez'), idOf(''), idOf(null)]).toEqual([undefined, undefined, undefined, undefined]);
    expect(measurerIdOf('Kit Dunn', knownMeasurers([], [...PEOPLE, { id: '19', name: 'kit dunn' }]))).toBeUndefined();
  });

  it('two visits are of one person by identity where both are known, else by name', () => {
    expect(isSameMeasurer(by('RA'), by('Rosa Adeyemi'))).toBe(true);
    expect(isSameMeasurer(by('mum'), by('RA'))).toBe(false);
    expect(isSameMeasurer(by('RA'), by('R. Alvarez'))).toBe(true);
    expect(isSameMeasurer(by('R. Alvarez'), by('S. Brandt'))).toBe(false);
  });
});
