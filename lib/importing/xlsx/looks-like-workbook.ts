import type { DecodeRefused } from '../decode'

/** Whether a file that is no text may be a workbook: a zip, whatever it is called. */
export const mayBeWorkbook = (refusal: DecodeRefused): boolean =>
  (refusal.kind === 'looks-like-xlsx' && refusal.format === 'xlsx') || (refusal.kind === 'binary' && refusal.format === 'zip')
