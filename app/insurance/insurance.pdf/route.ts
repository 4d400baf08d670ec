import { printedPhoto } from '#lib/db/photo/printed-photo'
import { insurancePdf } from '#lib/printing/pdf/insurance-pdf'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { insuranceSheet } from '#words/insurance'
import { insuranceQuerySchema, insuredOwners, readInsurance } from '../../_worth/read-insurance'
import { paperSchema } from '../schema'

/** The list with photographs, to print or to send to the insurer. */
export async function GET(request: Request): Promise<Response> {
  const { searchParams } = new URL(request.url)
  const { owner } = insuranceQuerySchema.parse({ owner: searchParams.getAll('owner') })
  const { owners, settings } = await getViewer()
  const insured = insuredOwners(owners, owner)
  const list = await readInsurance(insured, settings)
  const ownerNames = insured.map(({ name }) => name).join(', ')
  const sheet = insuranceSheet(list, { ownerNames, today: calendarDay(new Date()), currency: settings.currency })
  const pictures = new Map<string, Uint8Array>()
  for (const { picture } of sheet.pictured) {
    const photo = picture === null || pictures.has(picture) ? null : await printedPhoto(picture)
    if (picture !== null && photo) pictures.set(picture, photo)
  }
  const pictured = sheet.pictured.map((thing) => ({
    ...thing,
    picture: pictures.has(thing.picture ?? '') ? thing.picture : null,
  }))
  const paper = paperSchema.parse(searchParams.get('paper'))
  const pdf = await insurancePdf({ ...sheet, pictured }, { paper, createdAt: new Date(), pictures })
  return new Response(new Uint8Array(pdf), {
    headers: {
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, no-store',
      'content-type': 'application/pdf',
      'content-disposition': 'inline; filename="insurance-list.pdf"',
    },
  })
}
