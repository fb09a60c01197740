import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { partsOf } from '@/app/_exchange/set-parts';
import { SET_STYLES } from '@/app/_exchange/set-style';
import { NOT_READ_FILE, type PatientsOfSet, setZip } from '@/app/_exchange/set-zip';
import { readSet } from '@/lib/exchange/set/read-set';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { calendarDay } from '@/lib/units/calendar-day';

const TODAY = calendarDay('2026-11-25');

async function filesOf(patients: PatientsOfSet, name: keyof typeof SET_STYLES): Promise<Map<string, string>> {
  const { style } = SET_STYLES[name];
  const stream = setZip(patients, partsOf(style, DEFAULT_POLICY, TODAY), style, TODAY);
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  return new Map(Object.entries(unzipSync(bytes)).map(([name, text]) => [name, strFromU8(text)]));
}

/** No patient at all, two of whom cannot be read. */
const twoMissing: PatientsOfSet = async function* (unreadable) {
  for (const reference of ['hl-2', 'hl-1']) unreadable(reference);
  yield* [];
};

describe('a set whose patients cannot all be read', () => {
  it('names them beside the tables, and comes in all the same', async () => {
    const files = await filesOf(twoMissing, 'raw');
    expect(files.get(NOT_READ_FILE)).toMatch(/^2 patients are not in this export \(hl-1, hl-2\): the record cannot be read\./);
    expect(readSet(files)).toEqual({ kind: 'read', patients: [] });
  });

  it('for research says how many, never who', async () => {
    const files = await filesOf(twoMissing, 'research');
    expect(files.get(NOT_READ_FILE)).toMatch(/^2 patients are not in this export: /);
    expect([...files.values()].join()).not.toContain('hl-');
  });

  it('has no such file when all were read', async () => {
    const nobody: PatientsOfSet = async function* () {
      yield* [];
    };
    expect((await filesOf(nobody, 'raw')).has(NOT_READ_FILE)).toBe(false);
  });
});
