import 'server-only'
import { type ClassSheet, classSheetPages } from '../class-sheet'
import { type PackingSlips, packingSlipPages } from '../packing-slip'
import type { Paper } from '../page'
import { openPdf } from './open-pdf'

type KitPdfOptions = { paper: Paper /** In the file's own description. */; createdAt: Date }

/** The class sheet of a batch of kits as a PDF. */
export async function classSheetPdf(sheet: ClassSheet, { paper, createdAt }: KitPdfOptions): Promise<Buffer> {
  const pdf = await openPdf({ title: sheet.title, createdAt })
  return pdf.write(classSheetPages(sheet, paper, pdf.measure))
}

/** A packing slip for each kit, all in one PDF. */
export async function packingSlipsPdf(sheet: PackingSlips, { paper, createdAt }: KitPdfOptions): Promise<Buffer> {
  const pdf = await openPdf({ title: sheet.title, createdAt })
  return pdf.write(packingSlipPages(sheet, paper, pdf.measure))
}
