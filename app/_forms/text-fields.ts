import { doerName } from '#lib/db/access/doer'

/**
 * What a form sent, by field; files are left out.
 *
 * @param doer  the field that says who did it: whoever signed in, whatever the form says
 */
export const textFields = (form: FormData, doer: 'who' | 'by' = 'who'): Record<string, string> =>
  Object.fromEntries(
    [...form].flatMap(([name, value]) => (typeof value === 'string' ? [[name, name === doer ? doerName(value) : value]] : [])),
  )
