import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { clinicOf, historyOfSetting } from '@/db/clinic/clinic';
import { OWN_FORMS_KEY, OWN_MEASURES_KEY, ownPartsOf } from '@/db/clinic/own-parts';
import { peopleOf } from '@/db/people/people';
import type { OwnForm } from '@/lib/garment-forms/garment-catalogue';
import { MEASURES } from '@/lib/parts/catalogue';
import { measureTaken } from '@/lib/parts/own-measure';
import { askOwnPartAction } from './actions';
import { OwnFormForm, OwnMeasureForm } from './own-part-forms';

export const metadata: Metadata = { title: 'Own measures and garments' };

/** What a clinic adds to the named measures and to the forms of garment: a definition each, added once, retired and never deleted. */
export default async function ClinicPartsPage() {
  const therapist = await requireTherapist('/clinic/parts');
  const [{ measures, forms }, clinic, people, ...histories] = await Promise.all([
    ownPartsOf(therapist),
    clinicOf(therapist),
    peopleOf(therapist),
    historyOfSetting(therapist, OWN_MEASURES_KEY),
    historyOfSetting(therapist, OWN_FORMS_KEY),
  ]);
  const isLead = therapist.role === 'lead';
  const history = histories.flat().sort((one, other) => one.at.getTime() - other.at.getTime());
  const asked = measures.filter((one) => one.asked);
  const choices = [
    ...asked.map(({ id, part, name }) => ({ id, part, name })),
    ...MEASURES.map(({ id, part, name }) => ({ id, part, name })),
  ];
  return (
    <main id="main">
      <ClinicTitle title="Own measures and garments">
        <p className="secondary">
          Beside the catalogue. A definition goes with every figure and order made by it, also into another clinic; it never changes, and
          what is retired stays readable. Own measures are asked about against their range, the last visit and the other side alone.
        </p>
      </ClinicTitle>
      <h2 className="section-head">
        Named measures <span className="count">{measures.length}</span>
      </h2>
      {measures.length > 0 && (
        <div className="table-frame">
          <table>
            <thead>
              <tr>
                <ColumnHeads of={['Measure', 'Part', 'Range, error', 'How it is taken', 'Source', ...(isLead ? ['Asked for'] : [])]} />
              </tr>
            </thead>
            <tbody>
              {measures.map((one) => (
                <tr key={one.id}>
                  <th scope="row">
                    {one.name}
                    {!one.asked && <span className="second-line">retired</span>}
                  </th>
                  <td>{`${one.part.replace('-', ' ')}, ${one.kind}, ${one.sides === 'both' ? 'left and right' : 'once'}`}</td>
                  <td>{`${one.lowMm} to ${one.highMm} mm, SD ${one.tapeSdMm} mm`}</td>
                  <td>{one.definition}</td>
                  <td>{one.source}</td>
                  {isLead && (
                    <td>
                      <AskButton {...one} words={one.name} />
                    </td>
                  )}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {isLead && <OwnMeasureForm key={`measures ${measures.length}`} />}
      <h2 className="section-head">
        Forms of garment <span className="count">{forms.length}</span>
      </h2>
      {forms.length > 0 && (
        <div className="table-frame">
          <table>
            <thead>
              <tr>
                <ColumnHeads of={['Form', 'Ladders', 'Named measures', 'Days', ...(isLead ? ['Offered'] : [])]} />
              </tr>
            </thead>
            <tbody>
              {forms.map((one) => (
                <tr key={one.id}>
                  <th scope="row">
                    {one.words}
                    {!one.asked && <span className="second-line">retired</span>}
                  </th>
                  <td>{one.ladders}</td>
                  <td>{measuresInWords(one)}</td>
                  <td>{`${one.leadDays} to make, ${one.lifeDays} of wear`}</td>
                  {isLead && (
                    <td>
                      <AskButton {...one} />
                    </td>
                  )}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {isLead && <OwnFormForm key={`forms ${forms.length}`} choices={choices} />}
      <SettingChanges history={history} people={people} timeZone={clinic.timeZone} />
    </main>
  );
}

function measuresInWords({ measures, own }: OwnForm): string {
  const names = measures.map((id) => measureTaken({ measure: id, own: own.find((one) => one.id === id) })?.name ?? id);
  return names.length === 0 ? 'none' : names.join(', ');
}

function AskButton({ id, words, asked }: { id: string; words: string; asked: boolean }) {
  return (
    <form action={askOwnPartAction}>
      <input type="hidden" name="id" value={id} />
      <input type="hidden" name="asked" value={asked ? 'no' : 'yes'} />
      <button type="submit" className="button" aria-label={`${asked ? 'Retire' : 'Ask again'} ${words}`}>
        {asked ? 'Retire' : 'Ask again'}
      </button>
    </form>
  );
}
