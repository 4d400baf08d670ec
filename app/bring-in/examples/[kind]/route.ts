import { say } from '#language/say'
import { readSampleFile } from '#lib/db/importing/sample'
import { importKinds } from '#lib/importing/fields'
import { csvResponse, textResponse } from '../../csv-response'

/** The sample's own file of a kind, to see how one is laid out. */
export async function GET(_request: Request, { params }: { params: Promise<{ kind: string }> }): Promise<Response> {
  const asked = (await params).kind
  const kind = importKinds.find((one) => one === asked)
  if (kind === undefined) return textResponse(say('There is no example of that kind.'), 404)
  return csvResponse((await readSampleFile(kind)).toString('utf8'), `${kind}.csv`)
}
