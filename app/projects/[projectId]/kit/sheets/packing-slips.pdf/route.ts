import { say } from '#language/say'
import { readKitBags } from '#lib/db/kit-bag/queries'
import { packingSlipsPdf } from '#lib/printing/pdf/kit-sheets-pdf'
import { parseBags } from '#lib/project/kit/record'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { packingSlips } from '#words/kit-sheets'
import { pdfAnswer, refusal } from '../answer'
import { sheetSchema } from '../schema'

/** A packing slip for each bag asked for, to print. */
export async function GET(request: Request, { params }: { params: Promise<{ projectId: string }> }): Promise<Response> {
  const asked = sheetSchema.safeParse(Object.fromEntries(new URL(request.url).searchParams))
  if (!asked.success) return refusal(say('Slips are printed with paper=a4 or paper=letter, and with bags such as 1-8,13.'), 400)
  const [kit, { settings }] = await Promise.all([readKitBags((await params).projectId), getViewer()])
  if (!kit) return refusal(say('There is no such project.'), 404)
  const bags = parseBags(
    asked.data.bags,
    kit.bags.map(({ number }) => number),
  )
  if (bags === null) return refusal(say('Name bags there are, by number: 1-8, 13.'), 400)
  const now = new Date()
  const sheet = packingSlips(kit, new Set(bags), settings, calendarDay(now))
  return pdfAnswer(await packingSlipsPdf(sheet, { paper: asked.data.paper, createdAt: now }), 'packing-slips.pdf')
}
