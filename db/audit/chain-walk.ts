import { createHash, type Hash } from 'node:crypto';
import type { audit } from '../schema/schema';
import type { SealedRow } from '../schema/schema-clinic';
import { MENDED } from './audit-actions';
import { digestOf } from './audit-chain';
import type { KeptHead } from './audit-head';
import { linkedWords, linkOf } from './audit-link';
import { AS_IT_STOOD } from './seal-contents';

/** A row of the history as it is read. */
export type HistoryRow = typeof audit.$inferSelect;

/** What the latest deed about a row of content says: its digest, or null when it is gone; the deed's salt and number. */
export type LatestSeal = { readonly digest: string | null; readonly salt: string | null; readonly number: number };

/** The latest seal of each row of content, by table and id with a blank between. */
export type LatestSeals = ReadonlyMap<string, LatestSeal>;

/** Rows one after the other whose links are not by this key: the first, the last, and the digest of them as they stand. */
export type BrokenRun = { readonly from: number; readonly to: number; readonly digest: string };

/** The deed whose row names, in its detail, the rows that an erasure blanked. */
export const ERASED = 'patient erased';

/** Goes along a chain row by row; a broken link is told once, and the walk goes on from what is written there. */
export class ChainWalk {
  readonly blanked = new Map<number, string | null>();
  readonly seals = new Map<string, LatestSeal>();
  /** Rows from before the chain, as the deed says that sealed the content. */
  sealedBefore = 0;
  /** Rows of content that were sealed as they stood, and when. */
  readonly asItStood: { rows: number; at: Date | undefined } = { rows: 0, at: undefined };
  /** Who signed for broken runs, in a sentence each. */
  readonly signedFor: string[] = [];
  /** Heads that a lead signed for: rows up to there are known to be lost. */
  readonly lostHeads = new Set<string>();
  private readonly allowed = new Map<number, string>();
  private readonly found: string[] = [];
  private readonly runs: Run[] = [];

  constructor(
    private readonly key: string,
    public number: number,
    public link: string,
  ) {}

  take(row: HistoryRow): void {
    const number = row.number ?? 0;
    if (number !== this.number + 1) this.found.push(missing(this.number + 1, number - 1));
    if (linkOf(this.key, this.link, { ...row, number }) !== row.link) this.takeBroken(row, number);
    else {
      if (row.action === ERASED) this.allow(row);
      if (row.action === MENDED) this.mend(row);
      if (row.action === AS_IT_STOOD) {
        this.asItStood.rows += sealsIn(row).length;
        this.asItStood.at = row.at;
        if (row.subjectKind === 'clinic') this.sealedBefore = Number(row.detail?.deedsFromBefore ?? 0);
      }
    }
    this.takeDetail(row, number);
    for (const [table, id, digest] of sealsIn(row)) this.seals.set(`${table} ${id}`, { digest, salt: row.salt, number });
    this.number = number;
    this.link = row.link ?? '';
  }

  findings(): readonly string[] {
    const wrong = [...this.blanked].filter(([number, by]) => by === null || this.allowed.get(number) !== by).map(([number]) => number);
    return [
      ...this.found,
      ...this.runs.filter((run) => !run.isSigned).map(toldRun),
      ...wrong.map((number) => `The detail of row ${number} of the history was taken out although no erasure names it.`),
    ];
  }

  /** The runs of broken links that nobody has signed for. */
  broken(): readonly BrokenRun[] {
    return this.runs.filter((run) => !run.isSigned).map(closed);
  }

  private takeBroken(row: HistoryRow, number: number): void {
    let run = this.runs.at(-1);
    if (run?.to !== number - 1) {
      run = { from: number, to: number, hash: createHash('sha256'), action: row.action, isSigned: false, erasures: [] };
      this.runs.push(run);
    }
    run.to = number;
    run.hash.update(`${linkedWords({ ...row, number })}\n${row.link}\n`);
    if (row.action === ERASED) run.erasures.push(row);
  }

  private takeDetail(row: HistoryRow, number: number): void {
    const { salt, detail, detailDigest } = row;
    const isSalted = detailDigest !== null || row.contents !== null;
    if (salt === null && detail === null) {
      if (isSalted) this.blanked.set(number, row.erasureId);
      else if (row.erasureId !== null) this.found.push(`Row ${number} of the history names an erasure that took nothing of it.`);
      return;
    }
    const digest = salt === null || detail === null ? null : digestOf(salt, detail);
    if (salt === null || row.erasureId !== null || digest !== detailDigest)
      this.found.push(`The detail of row ${number} of the history is not as it was written.`);
  }

  private allow(row: HistoryRow): void {
    const [, erasureId] = sealsIn(row).find(([table]) => table === 'erasure') ?? [];
    for (const one of blankedBy(row.detail)) this.allowed.set(one, erasureId ?? this.blanked.get(one) ?? '');
  }

  private mend(row: HistoryRow): void {
    for (const { length, link } of headsIn(row.detail)) {
      this.lostHeads.add(link);
      this.signedFor.push(
        `A head of ${length} rows is known to be lost; row ${row.number} signs for it: ${String(row.detail?.reason ?? '')}`,
      );
    }
    for (const named of runsIn(row.detail)) {
      const run = this.runs.find((one) => one.from === named.from && one.to === named.to);
      if (!run || closed(run).digest !== named.digest) {
        this.found.push(`Rows ${named.from} to ${named.to} of the history are not those that row ${row.number} signs for.`);
        continue;
      }
      run.isSigned = true;
      for (const one of run.erasures) this.allow(one);
      this.signedFor.push(
        `Rows ${named.from} to ${named.to} were sealed with another key, or changed; row ${row.number} signs for them: ${String(row.detail?.reason ?? '')}`,
      );
    }
  }
}

type Run = {
  readonly from: number;
  to: number;
  readonly hash: Hash;
  readonly action: string;
  isSigned: boolean;
  readonly erasures: HistoryRow[];
};

function closed({ from, to, hash }: Run): BrokenRun {
  return { from, to, digest: hash.copy().digest('base64url') };
}

function toldRun({ from, to, action }: Run): string {
  return from === to
    ? `Row ${from} of the history (${action}) is not as it was written, or what stood before it is not.`
    : `Rows ${from} to ${to} of the history are not as they were written, or not sealed with this key.`;
}

function runsIn(detail: HistoryRow['detail']): readonly BrokenRun[] {
  return Array.isArray(detail?.runs) ? (detail.runs as readonly BrokenRun[]) : [];
}

/** The rows of content that a deed names; none when what stands there is no list of rows. */
function sealsIn({ contents }: HistoryRow): readonly SealedRow[] {
  return Array.isArray(contents) ? contents.filter((one: unknown): one is SealedRow => Array.isArray(one)) : [];
}

function headsIn(detail: HistoryRow['detail']): readonly KeptHead[] {
  return Array.isArray(detail?.heads) ? (detail.heads as readonly KeptHead[]) : [];
}

function blankedBy(detail: HistoryRow['detail']): readonly number[] {
  const rows = detail?.blanked;
  return Array.isArray(rows) ? rows.filter((one) => typeof one === 'number') : [];
}

function missing(from: number, to: number): string {
  return from === to ? `Row ${from} of the history is missing.` : `Rows ${from} to ${to} of the history are missing.`;
}
