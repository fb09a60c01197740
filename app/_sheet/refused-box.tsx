import { useEffect, useRef } from 'react';
import type { CellPlace } from '@/lib/entry/entry-state';
import { sheetRows } from '@/lib/visit-form/entry-rows';
import type { FormRefusal } from '@/lib/visit-form/read-sheet-side';
import type { VisitForm } from '@/lib/visit-form/visit-form';

/** Why the visit was not saved, box by box; each line leads to its box. */
export function RefusedBox({ refusals, onGo }: { refusals: readonly FormRefusal[]; onGo: (refusal: FormRefusal) => void }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (refusals.length > 0) box.current?.scrollIntoView({ block: 'nearest' });
  }, [refusals]);
  if (refusals.length === 0) return null;
  return (
    <div className="refused-box" role="alert" ref={box}>
      <b>Nothing was saved yet. {refusals.length === 1 ? 'One box stops it.' : `${refusals.length} boxes stop it.`}</b>
      <ul>
        {refusals.map((refusal) => (
          <li key={refusal.where}>
            <button className="link-button" type="button" onClick={() => onGo(refusal)}>
              {refusal.reason}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

type Ways = { readonly group: (group: number) => void; readonly focus: (place: CellPlace) => void; readonly setUp: () => void };

/** Goes to the first box that was refused. */
export function goToRefusal(refusals: readonly FormRefusal[], form: VisitForm, ways: Ways): void {
  const where = refusals[0]?.where ?? '';
  const [first, side, row, again] = where.split('/');
  const group = Number(first);
  const sheet = form.sheets[group];
  const ofSide = sheet && row !== undefined && (side === 'left' || side === 'right');
  if (sheet) ways.group(group);
  if (ofSide && sheetRows(sheet).some((one) => one.key === row)) {
    ways.focus({ group, side, row, again: again === 'again' });
    return;
  }
  const inSetUp = where === 'day' || where === 'time' || side === 'interval';
  if (inSetUp) ways.setUp();
  later(ofSide ? `box-${sheet.apart ? side : sheet.sides[0]}-${row}` : boxId(where, first, side));
}

function boxId(where: string, first: string | undefined, part: string | undefined): string {
  if (first === 'reading') return `box-reading-${part}`;
  return part === 'place' || part === 'interval' ? `box-${part}` : `box-${where}`;
}

function later(id: string): void {
  setTimeout(() => document.getElementById(id)?.focus(), 0);
}
