/** What a form sent, by field; files are left out. */
export const textFields = (form: FormData): Record<string, string> =>
  Object.fromEntries([...form].flatMap(([name, value]) => (typeof value === 'string' ? [[name, value]] : [])))
