import type { WorkKind } from '@/lib/schedule/worklist';

/** The words of each kind of work, for the key and for those who cannot see the mark. */
export const KIND_WORDS: Readonly<Record<WorkKind, string>> = {
  refer: 'refer',
  order: 'order',
  'first-fit': 'first fit',
  remeasure: 'remeasure',
  visit: 'visit',
  delivery: 'delivery',
};

/** The mark of a kind of work, centred on a point: square, circle, triangle, barred stem, cut-corner with "!". */
export function WorkMark({ kind, x, y }: { kind: WorkKind; x: number; y: number }) {
  switch (kind) {
    case 'order':
      return <rect className="work-mark solid" x={x - 5} y={y - 5} width={10} height={10} />;
    case 'visit':
      return <circle className="work-mark open" cx={x} cy={y} r={5} />;
    case 'first-fit':
      return <path className="work-mark open" d={`M${x} ${y - 6}l6 11h-12Z`} />;
    case 'remeasure':
      return <path className="work-mark open" d={`M${x} ${y - 6.5}v13M${x - 4} ${y - 3.5}h8M${x - 4} ${y}h8M${x - 4} ${y + 3.5}h8`} />;
    case 'delivery':
      return <path className="work-mark open" d={`M${x - 6} ${y}h11M${x + 1} ${y - 4.5}l4.5 4.5l-4.5 4.5`} />;
    case 'refer':
      return (
        <g>
          <path className="work-mark refer" d={`M${x - 3} ${y - 7}h6l4 4v6l-4 4h-6l-4-4v-6Z`} />
          <path className="work-bang" d={`M${x} ${y - 4}v5M${x} ${y + 3}v1.2`} />
        </g>
      );
  }
}

/** The mark as a small picture of its own. */
export function WorkIcon({ kind }: { kind: WorkKind }) {
  return (
    <svg className="work-icon" width={18} height={18} viewBox="0 0 18 18" role="img" aria-label={KIND_WORDS[kind]}>
      <WorkMark kind={kind} x={9} y={9} />
    </svg>
  );
}
