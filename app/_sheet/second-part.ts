/**
 * What of the sheet comes right after the page: all that asks about a figure, with the growth tables and the law of the body behind it, and
 * the panels that nobody needs for the first figure. `useSecondPart` fetches it; nothing else imports this file.
 */
export { sheetView } from '@/lib/entry/asked-view';
export { openQuestions } from '@/lib/entry/open-questions';
export { visitQuestions } from '@/lib/entry/visit-questions';
export { readVisitForm } from '@/lib/visit-form/read-visit-form';
export { MeasureSection } from './measures/measure-section';
export { OtherDraft } from './other-draft';
export { SheetPanels } from './paste/sheet-panels';
export { SheetOutline } from './sheet-outline';
