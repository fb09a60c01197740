import { useEffect, useState } from 'react';
import { timeIn } from '@/app/_auth/today';
import { TapingReminders } from '@/app/_sheet/head/taping-reminders';
import { Sheet } from '@/app/_sheet/sheet';
import sheetStyles from '@/app/_sheet/sheet.module.css';
import type { Finish } from '@/app/_sheet/use-finish';
import { LandedLines } from './landed-lines';
import styles from './offline.module.css';
import type { KeptList, KeptSheet, Opened } from './offline-data';
import { keepFinished, type Landed, postFinished, readWaiting, sendWaiting, type WaitingVisit } from './send-waiting';
import { useIdle } from './use-idle';

/** List and sheets of today, opened: one sheet at a time, and what is finished and waits. */
export function OpenDesk({ opened: { list, sheets }, onClose }: { readonly opened: Opened; readonly onClose: () => void }) {
  const [shown, setShown] = useState<KeptSheet | null>(null);
  const [waiting, setWaiting] = useState<readonly WaitingVisit[]>([]);
  const [landed, setLanded] = useState<readonly Landed[]>([]);
  useIdle(list.idleSeconds, onClose);
  useEffect(() => {
    const look = async () => {
      const found = await sendWaiting(list.waiting, '/offline').catch(() => []);
      setLanded(found.filter(({ kind }) => kind !== 'waits'));
      setWaiting(await stillWaiting(list));
    };
    void look();
    window.addEventListener('online', look);
    return () => window.removeEventListener('online', look);
  }, [list]);
  const finish: Finish = async (submissionId, form, leftOpen) => {
    if (!shown) return { kind: 'refused', refusals: [] };
    const { patientId, name, device, draftVersion } = shown.data;
    const visit = { patientId, name, submissionId, form, leftOpen, finishedAt: timeIn(list.timeZone), device, version: draftVersion };
    const answer = await postFinished(visit);
    if (answer.kind === 'saved') window.location.assign(`/patients/${patientId}/visits/${answer.visitId}`);
    else if (answer.kind === 'refused' || answer.kind === 'asked') return answer;
    else if (!(await keepFinished(list.waiting, visit))) return NOT_KEPT;
    setWaiting(await stillWaiting(list));
    setShown(null);
    return undefined;
  };
  const finished = new Set(waiting.map(({ patientId }) => patientId));
  return (
    <>
      <div className="title-row">
        <p role="status">{`Kept on this device: as of ${list.at} today. What came later is not in it.`}</p>
        <div className="actions">
          {shown && (
            <button className="button" type="button" onClick={() => setShown(null)}>
              Back to the list
            </button>
          )}
          <button className="button" type="button" onClick={onClose}>
            Lock
          </button>
        </div>
      </div>
      <div role="status">
        <LandedLines landed={landed} />
      </div>
      {shown ? (
        <div className={sheetStyles.sheetPage}>
          <Sheet
            key={shown.data.device.name}
            data={{ ...shown.data, openedId: `${shown.data.openedId} away`, away: true }}
            finishWords="Finish visit"
            finish={finish}
            top={() => <TapingReminders {...shown.reminders} />}
          />
        </div>
      ) : (
        <>
          <Waiting visits={waiting} />
          <Sheets sheets={sheets} finished={finished} onShow={setShown} />
          <List of={list.groups} sheets={sheets} onShow={setShown} />
        </>
      )}
    </>
  );
}

const NOT_KEPT = {
  kind: 'refused' as const,
  refusals: [
    {
      where: 'form',
      reason: 'Not finished: this browser could not keep it, and the server cannot be reached. Leave this page open.',
    } as const,
  ],
};

function Waiting({ visits }: { readonly visits: readonly WaitingVisit[] }) {
  if (visits.length === 0) return null;
  return (
    <section aria-labelledby="waiting-head">
      <h2 id="waiting-head" className="section-head">
        Finished, waiting for a connection <span className="count">{visits.length}</span>
      </h2>
      <ul className="plain-list">
        {visits.map(({ submissionId, name, finishedAt }) => (
          <li key={submissionId}>{`${name}, finished at ${finishedAt}`}</li>
        ))}
      </ul>
      <p className="secondary">They are sent by themselves from this page, or from the next one you open, when the connection is back.</p>
    </section>
  );
}

type SheetsProps = { readonly sheets: readonly KeptSheet[]; readonly onShow: (sheet: KeptSheet) => void };

function Sheets({ sheets, finished, onShow }: SheetsProps & { readonly finished: ReadonlySet<string> }) {
  return (
    <section aria-labelledby="sheets-head">
      <h2 id="sheets-head" className="section-head">
        Sheets <span className="count">{sheets.length}</span>
      </h2>
      {sheets.length === 0 && <p className="nothing-listed secondary">None: open a patient while there is a connection.</p>}
      <ul className={styles.rows}>
        {sheets.map((sheet) => (
          <li key={sheet.data.patientId}>
            <p>
              <strong>{sheet.data.name}</strong>
              <span className="second-line">
                {`${sheet.data.reference}, kept at ${sheet.at}${finished.has(sheet.data.patientId) ? ', finished' : ''}`}
              </span>
            </p>
            <button
              className="button"
              type="button"
              onClick={() => onShow(sheet)}
              disabled={finished.has(sheet.data.patientId)}
              aria-label={`Measure ${sheet.data.name}`}
            >
              Measure
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function List({ of, sheets, onShow }: SheetsProps & { readonly of: Opened['list']['groups'] }) {
  const sheetOf = new Map(sheets.map((sheet) => [sheet.data.patientId, sheet]));
  return of.map(({ head, total, lines }) => (
    <section key={head} aria-label={head}>
      <h2 className="section-head">
        {head} <span className="count">{lines.length < total ? `${lines.length} of ${total}` : total}</span>
      </h2>
      <ul className={styles.rows}>
        {lines.map(({ id, patientId, day, over, who, about, title, reason }) => {
          const sheet = sheetOf.get(patientId);
          return (
            <li key={id}>
              <p>
                <strong>{title}</strong>
                {`, ${who}, ${about}`}
                <span className="second-line">
                  {day}
                  {over && <span className="over">{`, ${over}`}</span>}
                  {`. ${reason}`}
                </span>
              </p>
              {sheet && (
                <button className="button" type="button" onClick={() => onShow(sheet)} aria-label={`Measure ${who}`}>
                  Measure
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  ));
}

async function stillWaiting(list: KeptList): Promise<readonly WaitingVisit[]> {
  const all = await readWaiting(list.waiting).catch(() => []);
  return all.filter(({ back }) => back === undefined);
}
