import { ChooseDraft } from '@/app/_draft/choose-draft';
import type { useDraft } from '@/app/_draft/use-draft';
import type { DraftContent, SheetData } from '@/lib/entry/entry-data';
import type { VisitForm } from '@/lib/visit-form/visit-form';

type OtherProps = {
  readonly data: SheetData;
  readonly form: VisitForm;
  readonly draft: ReturnType<typeof useDraft>;
  readonly takeOver: (other: DraftContent) => void;
  readonly onNewSubmission: () => void;
};

/** The choice where somebody else, or another window, kept this sheet too. */
export function OtherDraft({ data, form, draft, takeOver, onNewSubmission }: OtherProps) {
  if (draft.state.kind !== 'newer') return null;
  return (
    <ChooseDraft
      theirs={draft.state.theirs}
      savedAt={draft.state.savedAs && `/patients/${data.patientId}/visits/${draft.state.savedAs}`}
      mine={form}
      onTheirs={(theirs) => {
        takeOver(theirs.content);
        draft.keeper.startFrom(theirs.content, theirs.version, theirs.at);
      }}
      onMine={(theirs) => {
        if (!theirs) onNewSubmission();
        draft.keeper.overwrite(theirs?.version ?? 0);
      }}
      onDrop={async () => {
        await draft.keeper.close();
        window.location.reload();
      }}
    />
  );
}
