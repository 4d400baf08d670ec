import 'server-only'
import { ok, type Result } from '#lib/result'
import { cutPatternPages, type TooManySheets } from '../cut-pattern'
import { type CutSheet, cutSheetPages } from '../cut-sheet'
import type { Paper } from '../page'
import { openPdf } from './open-pdf'

type CutPlanPdfOptions = {
  paper: Paper
  /** `actual`: the parts themselves, over as many sheets as they need; else drawings to scale with steps and lists. */
  size: 'scale' | 'actual'
  /** Printed nowhere; it is in the file's own description. */
  createdAt: Date
}

/** A plan of cuts as a PDF, true to a tenth of a millimetre at the scale each page states. */
export async function cutPlanPdf(
  sheet: CutSheet,
  { paper, size, createdAt }: CutPlanPdfOptions,
): Promise<Result<Buffer, TooManySheets>> {
  const pdf = await openPdf({ title: sheet.title, createdAt })
  if (size === 'scale') return ok(await pdf.write(cutSheetPages(sheet, paper, pdf.measure)))
  const pattern = cutPatternPages(sheet, paper, pdf.measure)
  return pattern.ok ? ok(await pdf.write(pattern.value)) : pattern
}
