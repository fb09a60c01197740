import { rolesFor } from '@/lib/exchange/spreadsheet/guess-mapping';
import { MAPPING, type Mapping, ROLES } from '@/lib/exchange/spreadsheet/mapping';
import type { TextTable } from '@/lib/exchange/spreadsheet/text-table';
import { DIAGNOSIS_GROUPS } from '@/lib/record/diagnosis-groups';

/**
 * What was said on the mapping form, over what held before; a box that says nothing a mapping knows leaves it as it was. In another layout
 * the columns are looked at anew.
 */
export function mappingFrom(
  boxes: Readonly<Record<string, string>>,
  { table, mapping: before }: { readonly table: TextTable; readonly mapping: Mapping },
): Mapping {
  const text = (name: string) => boxes[name]?.trim() ?? '';
  const group = DIAGNOSIS_GROUPS.find((one) => one === text('diagnosisGroup'));
  const said = {
    ...before,
    layout: text('layout') || before.layout,
    dayOrder: text('dayOrder') || before.dayOrder,
    lastYear: Number(text('lastYear')) || before.lastYear,
    figures: text('figures') || before.figures,
    unit: text('unit') || before.unit,
    heightUnit: text('heightUnit') || before.heightUnit,
    weightUnit: text('weightUnit') || before.weightUnit,
    reference: text('reference'),
    born: text('born'),
    sex: text('sex'),
    diagnosisGroup: group ?? before.diagnosisGroup,
    limb: text('limb'),
    side: text('side'),
    affected: text('affected') || before.affected,
    zero: text('zeroWords') || text('zero'),
    roles: before.roles.map((role, index) => ROLES.find((one) => one === text(`role-${index}`)) ?? role),
  };
  const read = MAPPING.safeParse(said);
  if (!read.success) return before;
  return read.data.layout === before.layout ? read.data : { ...read.data, roles: [...rolesFor(table, read.data.layout)] };
}
