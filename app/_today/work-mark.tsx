import type { WorkKind } from '@/lib/schedule/worklist';
import styles from './today.module.css';

/** The words of each kind of work, for the key and for those who cannot see the mark. */
export const KIND_WORDS: Readonly<Record<WorkKind, string>> = {
  refer: 'refer',
  order: 'order',
  'first-fit': 'first fit',
  remeasure: 'remeasure',
  visit: 'visit',
  call: 'call or reply',
  delivery: 'delivery',
};

/** Marks that are filled, each in its colour; the others are outlines. */
const FILLED: Partial<Record<WorkKind, string>> = { order: 'solid', refer: 'refer' };

/** A point of a mark's centre. */
type At = readonly [x: number, y: number];

const SHAPES: Readonly<Record<WorkKind, (x: number, y: number) => string>> = {
  order: (x, y) => `M${x - 5} ${y - 5}h10v10h-10Z`,
  visit: (x, y) => `M${x - 5} ${y}a5 5 0 1 0 10 0a5 5 0 1 0-10 0Z`,
  'first-fit': (x, y) => `M${x} ${y - 6}l6 11h-12Z`,
  remeasure: (x, y) => `M${x} ${y - 6.5}v13M${x - 4} ${y - 3.5}h8M${x - 4} ${y}h8M${x - 4} ${y + 3.5}h8`,
  call: (x, y) => `M${x - 6.5} ${y - 5.5}h13v8h-7l-3 3.5v-3.5h-3Z`,
  delivery: (x, y) => `M${x - 6} ${y}h11.5M${x + 1} ${y - 4.5}l4.5 4.5l-4.5 4.5`,
  refer: (x, y) => `M${x - 3} ${y - 7}h6l4 4v6l-4 4h-6l-4-4v-6Z`,
};

/** Marks of one kind, however many, drawn in one stroke: square, circle, triangle, barred stem, speech bubble, arrow, cut-corner with "!". */
export function WorkMarks({ kind, at }: { kind: WorkKind; at: readonly At[] }) {
  const draw = SHAPES[kind];
  return (
    <>
      <path className={styles.workMark} data-look={FILLED[kind] ?? 'open'} d={at.map(([x, y]) => draw(x, y)).join('')} />
      {kind === 'refer' && <path className={styles.workBang} d={at.map(([x, y]) => `M${x} ${y - 4}v5M${x} ${y + 3}v1.2`).join('')} />}
    </>
  );
}

const CENTRE: readonly At[] = [[9, 9]];
const KINDS = Object.keys(SHAPES) as WorkKind[];

/** Each mark drawn once, for every small picture of it on the page. */
export function MarkShapes() {
  return (
    <svg className="visually-hidden" aria-hidden="true">
      {KINDS.map((kind) => (
        <symbol key={kind} id={`mark-${kind}`} viewBox="0 0 18 18">
          <WorkMarks kind={kind} at={CENTRE} />
        </symbol>
      ))}
    </svg>
  );
}

/** The mark as a small picture of its own; the page holds its shape in `MarkShapes`. */
export function WorkIcon({ kind }: { kind: WorkKind }) {
  return (
    <svg className={styles.workIcon} role="img" aria-label={KIND_WORDS[kind]}>
      <use href={`#mark-${kind}`} />
    </svg>
  );
}
