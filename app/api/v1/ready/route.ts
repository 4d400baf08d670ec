import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getReady } from '#api/service'
import { findUnready, type Unready } from '#lib/db/readiness'

/** Asked again after so long: answers of a large collection take some seconds. */
const again = { headers: { 'retry-after': '2' } }

const ready = serve(getReady, async () => {
  const unready = await findUnready()
  return unready ? new Problem('not-ready', sentences[unready.kind], again) : { status: 'ready' as const }
})

const sentences: Record<Unready['kind'], string> = {
  'database-away': 'The database does not answer.',
  'other-version': 'The database is of another version of the program. Bring it up to date, or update the program.',
  'answers-not-built': 'What every screen answers from is being read.',
}

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: ready })
