/** The boxes of a posted form as they were typed, by name; of two with one name the later counts. Files are left out. */
export function postedText(form: FormData): Record<string, string> {
  return Object.fromEntries([...form.entries()].flatMap(([box, value]) => (typeof value === 'string' ? [[box, value]] : [])));
}
