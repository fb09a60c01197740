import { describe, expect, it } from 'vitest';
import { readIncoming } from '@/app/_exchange/read-incoming';
import { calendarDay } from '@/lib/units/calendar-day';

const TODAY = calendarDay('2026-11-30');
const patient = (id: string, value: string) => ({ resourceType: 'Patient', id, birthDate: '1990-01-31', identifier: [{ value }] });
const weight = (id: string, of: string, value: number) => ({
  resourceType: 'Observation',
  id,
  status: 'final',
  code: { coding: [{ system: 'http://loinc.org', code: '3141-9' }] },
  subject: { reference: `Patient/${of}` },
  effectiveInstant: '2026-03-02T08:00:00Z',
  valueQuantity: { value, unit: 'kg' },
});
const read = (text: string) => readIncoming({ fileName: 'x', form: 'bundle', text }, null, TODAY);

describe('FHIR as other programs send it', () => {
  it('resources line by line (ndjson) are one file: each patient’s own, and each thing passed over is listed with its reason', () => {
    const lines = [
      patient('a', 'A-1'),
      patient('b', 'B-1'),
      weight('1', 'a', 60),
      weight('2', 'b', 90),
      weight('3', 'b', 91),
      weight('4', 'c', 70),
    ];
    const { patients, faults } = read(`${lines.map((one) => JSON.stringify(one)).join('\n')}\n`);
    expect(patients.map(({ details, visits }) => [details.reference, visits.map((one) => one.weight?.text)])).toEqual([
      ['A-1', ['60']],
      ['B-1', ['90']],
    ]);
    expect(faults.map(({ reason }) => reason)).toEqual([
      expect.stringMatching(/^Observation\/3: another weight of 2026-03-02 .* which one counts\?/),
      'Observation/4: its subject is not a patient of this bundle.',
    ]);
  });

  it('a single resource is read as a file of one, and a line that is none refuses the whole', () => {
    expect(read(JSON.stringify(patient('a', 'A-1'))).faults[0]?.reason).toContain('no height and no weight');
    expect(read(`${JSON.stringify(patient('a', 'A-1'))}\nnot json\n`)).toMatchObject({
      patients: [],
      faults: [{ reason: expect.stringContaining('neither') }],
    });
  });

  it.each([
    ['a null character', 'A-1\u0000', 'a reference that is no text: details, reference: holds a character that is none.'],
    ['half of a pair', 'A-1\ud83e', 'a reference that is no text: details, reference: holds a character that is none.'],
    ['nine thousand letters', 'A'.repeat(9000), `${'A'.repeat(80)}: details, reference: has more than 4000 characters.`],
  ])('a patient whose text holds %s stays out by name, and the others come in', (_, reference, reason) => {
    const lines = [patient('a', reference), patient('b', 'B-1'), weight('1', 'a', 60), weight('2', 'b', 90)];
    const { patients, faults } = read(lines.map((one) => JSON.stringify(one)).join('\n'));
    expect(patients.map(({ details }) => details.reference)).toEqual(['B-1']);
    expect(faults.map((one) => one.reason)).toEqual([reason]);
  });
});
