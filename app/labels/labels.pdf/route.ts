import { say } from '#language/say'
import { labelsPdf } from '#lib/printing/pdf/labels-pdf'
import { getViewer } from '#viewer/viewer'
import { describeLabelRefusal, readLabels } from '../../_labels/read-labels'
import { choiceMeant } from '../choice-meant'
import { baseOfRequest, parametersOf, readBase, readLabelsQuery, stockOf, whichOf } from '../labels-query'
import { describeStockRefusal } from '../words'

/** The labels of the page's choices, to print. */
export async function GET(request: Request): Promise<Response> {
  const query = readLabelsQuery(parametersOf(new URL(request.url).searchParams))
  const stock = stockOf(query)
  if (!stock.ok) return refusal(describeStockRefusal(stock.error), 422)
  const base = readBase(query.base ?? baseOfRequest(request.headers))
  if (base === null) return refusal(say('Labels lead to an address such as http://192.168.1.20:4300.'), 422)
  const { settings, ownerIds } = await getViewer()
  const read = await readLabels({
    choice: await choiceMeant(query, ownerIds, settings.lengthUnit),
    which: whichOf(query),
    ownerIds,
    unit: settings.lengthUnit,
  })
  if (!read.ok) return refusal(describeLabelRefusal(read.error), 422)
  if (read.value.labels.length === 0)
    return refusal(say('There is no label to print: nothing changed, or nothing was chosen.'), 404)
  const pdf = await labelsPdf(read.value.labels, {
    ...{ stock: stock.value, base, hasOutlines: query.trial !== null },
    ...{ title: say('Labels'), createdAt: new Date() },
  })
  return new Response(new Uint8Array(pdf), {
    headers: {
      ...headers,
      'content-type': 'application/pdf',
      'content-disposition': 'inline; filename="labels.pdf"',
      'cross-origin-resource-policy': 'same-origin',
    },
  })
}

const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'private, no-store' }

const refusal = (sentence: string, status: number): Response =>
  new Response(sentence, { status, headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' } })
