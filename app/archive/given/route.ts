import { keepersOnly } from '#api/keepers-only'
import { refuseOtherSites } from '#api/same-origin'
import { say } from '#language/say'
import { mayDo } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { keepGiven } from '#lib/db/archive/archive-files'
import { describeArchiveRefusal } from '#words/archive'

const answer = (body: { givenId: string } | { message: string }, status: number): Response =>
  Response.json(body, { status, headers: { 'cache-control': 'no-store', 'x-content-type-options': 'nosniff' } })

/** Takes an archive as the body itself, straight to the disk; it is not opened yet. */
export async function POST(request: Request): Promise<Response> {
  if (!mayDo(who(), 'keep')) return keepersOnly()
  if (refuseOtherSites(request)) return answer({ message: say('Only this server’s own pages may do that.') }, 403)
  if (!request.body) return answer({ message: say('There is no file.') }, 400)
  const kept = await keepGiven(request.body, new Date())
  return kept.ok ? answer(kept.value, 201) : answer({ message: describeArchiveRefusal(kept.error) }, 413)
}
