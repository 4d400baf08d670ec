import 'server-only'
import type { Label } from '#lib/label/label'
import { type LabelPagesOptions, labelPages } from '../label-pages'
import { openPdf } from './open-pdf'

/** Labels as a PDF, their edges true to a tenth of a millimetre. */
export async function labelsPdf(
  labels: readonly Label[],
  { title, createdAt, ...options }: LabelPagesOptions & { title: string; createdAt: Date },
): Promise<Buffer> {
  const pdf = await openPdf({ title, createdAt })
  return pdf.write(labelPages(labels, options, pdf.measure).pages)
}
