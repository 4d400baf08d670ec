import { say } from '#language/say'
import { readKit } from '#lib/db/kit/read-kit'
import { readKitBags } from '#lib/db/kit-bag/queries'
import { classSheetPdf } from '#lib/printing/pdf/kit-sheets-pdf'
import { getViewer } from '#viewer/viewer'
import { classSheet } from '#words/kit-sheets'
import { pdfAnswer, refusal } from '../answer'
import { sheetSchema } from '../schema'

/** The sheet that lies in every kit, to print. */
export async function GET(request: Request, { params }: { params: Promise<{ projectId: string }> }): Promise<Response> {
  const asked = sheetSchema.safeParse(Object.fromEntries(new URL(request.url).searchParams))
  if (!asked.success) return refusal(say('A sheet is printed with paper=a4 or paper=letter.'), 400)
  const { projectId } = await params
  const [kit, reckoned, { settings }] = await Promise.all([readKitBags(projectId), readKit(projectId), getViewer()])
  if (!kit || !reckoned) return refusal(say('There is no such project.'), 404)
  const pdf = await classSheetPdf(classSheet(kit, reckoned, settings), { paper: asked.data.paper, createdAt: new Date() })
  return pdfAnswer(pdf, 'class-sheet.pdf')
}
