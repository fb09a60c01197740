import { describe, expect, it } from 'vitest';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import { importDoubts } from '@/lib/exchange/import-doubts';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { PatientFile } from '@/lib/record/patient-file';
import type { PatientRecord } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { file, row } from './files';

/** A leg whose knee and fold were written in each other's row. */
const CROSSED = file(
  row({ distance: '4', girth: '20.6' }),
  row({ distance: '8', girth: '22.1' }),
  row({ distance: '70', landmark: 'knee' }),
  row({ distance: '38', landmark: 'gluteal-fold' }),
);
const STRAIGHT = file(row({ distance: '4', girth: '20.6' }), row({ distance: '8', girth: '22.1' }), row({ distance: '12', girth: '23.9' }));

/** A record whose ladder counts downward from the ankle crease, as another program may send it. */
function downward(): PatientRecord {
  const read = readLaddersCsv(STRAIGHT, calendarDay('2026-11-25'));
  const record = read.kind === 'fault' ? undefined : read.records[0];
  if (!record) throw new Error('no record');
  const visits = record.visits.map((visit) => ({
    ...visit,
    ladders: visit.ladders.map((ladder) => ({ ...ladder, direction: 'down' as const })),
  }));
  return { ...record, visits };
}

describe('zero, direction and landmarks that cannot be', () => {
  it('a ladders file finds the direction by itself, and refuses landmarks out of their order by line', () => {
    expect(readLaddersCsv(CROSSED, calendarDay('2026-11-25'))).toMatchObject({
      kind: 'fault',
      fault: { column: 'landmark', reason: expect.stringMatching(/do not lie in the order/) },
    });
  });

  it('are a doubt in the command line’s document', () => {
    const document = JSON.stringify(analysisDocument([downward()], DEFAULT_POLICY, calendarDay('2026-02-01'), { variance: 1, n: 0 }));
    expect(document).toContain('"kind":"zero-direction"');
    expect(document).toContain('Downward from the ankle crease?');
  });

  it('are asked about at import', () => {
    const { reference, born, sex, affected, visits } = downward();
    const details = { reference, born, sex, affected };
    const doubts = importDoubts({ details, visits, pieces: [], events: [], cautions: [] } as unknown as PatientFile, DEFAULT_POLICY);
    expect(doubts.map(({ message }) => message)).toEqual([expect.stringMatching(/^Downward from the ankle crease\?/)]);
  });
});
