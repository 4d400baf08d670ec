import { keepersOnly } from '#api/keepers-only'
import { refuseOtherSites } from '#api/same-origin'
import { say } from '#language/say'
import { mayDo } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { startBackupJob } from '#lib/db/backup/backup-jobs'
import { bringInBackup } from '#lib/db/backup/bring-in-backup'
import { describeBackupRefusal } from '#words/backup'

/** Takes a backup as it is sent, straight to the disk: it may be larger than any form. Then it is checked. */
export async function POST(request: Request): Promise<Response> {
  if (!mayDo(who(), 'keep')) return keepersOnly()
  const refusal = refuseOtherSites(request)
  if (refusal) return refusal.toResponse()
  const answer = (status: number, body: object) => Response.json(body, { status, headers: { 'cache-control': 'no-store' } })
  if (request.body === null) return answer(422, { message: say('Nothing was sent.') })
  const brought = await bringInBackup(request.body)
  if (!brought.ok) return answer(409, { message: describeBackupRefusal(brought.error) })
  const checking = await startBackupJob({ verb: 'check', name: brought.value.name })
  return answer(200, { name: brought.value.name, jobId: checking.ok ? checking.value.jobId : null })
}
