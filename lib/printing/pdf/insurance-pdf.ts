import 'server-only'
import { type InsuranceSheet, insurancePages } from '../insurance-sheet'
import type { Paper } from '../page'
import { openPdf } from './open-pdf'

type InsurancePdfOptions = {
  paper: Paper
  /** In the file's own description. */
  createdAt: Date
  /** JPEG or PNG, by the names the sheet calls them. */
  pictures: ReadonlyMap<string, Uint8Array>
}

/** An insurance list with its photographs as a PDF. */
export async function insurancePdf(sheet: InsuranceSheet, { paper, createdAt, pictures }: InsurancePdfOptions): Promise<Buffer> {
  const pdf = await openPdf({ title: sheet.title, createdAt })
  return pdf.write(insurancePages(sheet, paper, pdf.measure), pictures)
}
