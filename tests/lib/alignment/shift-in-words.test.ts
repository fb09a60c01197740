import { describe, expect, it } from 'vitest';
import type { ShiftCheck, ShiftFinding } from '@/lib/alignment/shift-check';
import { shiftInWords } from '@/lib/alignment/shift-in-words';

const found = (finding: ShiftFinding | null, mm: number, factor = 1): ShiftCheck => ({
  ...{ mm, seMm: 3, residualMm: 0, factor, factorSe: 0.01, finding },
});

describe('a shift in words', () => {
  it('says how far and which way, with its range: 1.96 · 3 mm = 5.9 mm', () => {
    expect(shiftInWords(found('zero-moved', 20), 'cm')).toBe(
      'The zero looks moved by about 2.0\u202fcm towards the trunk, give or take 0.6\u202fcm.',
    );
    expect(shiftInWords(found('zero-moved', -20), 'cm')).toBe(
      'The zero looks moved by about 2.0\u202fcm away from the trunk, give or take 0.6\u202fcm.',
    );
    expect(shiftInWords(found('interval-slipped', -40), 'cm')).toContain('4.0\u202fcm away from the trunk');
    expect(shiftInWords(found(null, 0), 'cm')).toContain('agrees with last time: 0.0\u202fcm away from the trunk');
  });
  it('says what change would remain only where one would', () => {
    expect(shiftInWords(found('cannot-tell', 20, 1.03), 'cm')).toContain('(3.0\u202f% would remain)');
    expect(shiftInWords(found('cannot-tell', 20, 1.0001), 'cm')).not.toContain('would remain');
  });
});
