/** What is known of a field that takes pictures, at the moment one is pasted. */
export type PictureField = {
  /** The caret is in its form, or in it. */
  hasCaret: boolean
  /** Between its middle and that of the window, in pixels; the sign says nothing. */
  distance: number
}

/** The field a picture goes to: that of the form with the caret, else the nearest to where one looks; −1 where there is none. */
export function whichField(fields: readonly PictureField[]): number {
  const nearest = (of: readonly number[]) =>
    of.reduce((best, at) => (best < 0 || distanceOf(fields, at) < distanceOf(fields, best) ? at : best), -1)
  const all = fields.map((_, at) => at)
  const withCaret = all.filter((at) => fields[at]?.hasCaret)
  return nearest(withCaret.length > 0 ? withCaret : all)
}

const distanceOf = (fields: readonly PictureField[], at: number): number => Math.abs(fields[at]?.distance ?? 0)

/** Whether a field that accepts `accept` takes such a file; the same reading of the list as the browser’s own. */
export function accepts(accept: string, { type, name }: { type: string; name: string }): boolean {
  const wanted = accept
    .split(',')
    .map((one) => one.trim().toLowerCase())
    .filter((one) => one !== '')
  if (wanted.length === 0) return true
  const [kind] = type.toLowerCase().split('/')
  return wanted.some((one) =>
    one.startsWith('.') ? name.toLowerCase().endsWith(one) : one === type.toLowerCase() || one === `${kind}/*`,
  )
}

/** Whether a field takes pictures at all. */
export const takesPictures = (accept: string | undefined): boolean => /(^|[\s,])image\//.test(accept ?? '')
