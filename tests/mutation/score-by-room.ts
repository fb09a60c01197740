/** What is read of the report of a run, in the form of the mutation-testing report schema. */
export type Mutants = {
  readonly files: Readonly<Record<string, { readonly source: string; readonly mutants: readonly Mutant[] }>>;
};

type Mutant = {
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly status: string;
  readonly location: {
    readonly start: { readonly line: number; readonly column: number };
    readonly end: { readonly line: number; readonly column: number };
  };
};

/** Noticed: a test failed, or ran for ever. What did not compile or was left aside is not counted. */
const NOTICED = ['Killed', 'Timeout'];
const MISSED = ['Survived', 'NoCoverage'];

/** One line a room with its score, and one for each change that no test noticed. */
export function scoreByRoom({ files }: Mutants): { readonly table: string[]; readonly survivors: string[] } {
  const rooms = new Map<string, { noticed: number; all: number }>();
  const survivors: string[] = [];
  for (const [file, { source, mutants }] of Object.entries(files)) {
    const room = file.split('/')[1] ?? '';
    const score = rooms.get(room) ?? { noticed: 0, all: 0 };
    rooms.set(room, score);
    for (const mutant of mutants) {
      if (NOTICED.includes(mutant.status)) score.noticed += 1;
      else if (!MISSED.includes(mutant.status)) continue;
      else survivors.push(inWords(file, source, mutant));
      score.all += 1;
    }
  }
  const table = [...rooms].map(([room, { noticed, all }]) => {
    const share = all === 0 ? '–' : `${((100 * noticed) / all).toFixed(1)} %`;
    return `${room.padEnd(14)} ${String(noticed).padStart(5)} of ${String(all).padStart(5)}  ${share.padStart(7)}`;
  });
  return { table, survivors };
}

function inWords(file: string, source: string, { location: { start, end }, mutatorName, replacement, status }: Mutant): string {
  const lines = source.split('\n');
  const line = lines[start.line - 1] ?? '';
  const was = start.line === end.line ? line.slice(start.column - 1, end.column - 1) : `${line.slice(start.column - 1).trim()} …`;
  const untouched = status === 'NoCoverage' ? ' (no test comes here)' : '';
  const becomes = replacement ?? mutatorName;
  return `${file}:${start.line} ${was} → ${becomes.split('\n')[0]}${untouched}`;
}
