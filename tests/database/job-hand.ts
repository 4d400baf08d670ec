import { setTimeout as pause } from 'node:timers/promises'
import { who } from '#lib/db/access/asking'
import { database } from '#lib/db/client'
import { Jobs } from '#lib/db/job/jobs'
import { leaveQueuedJobs, queuedJobs } from '#lib/db/job/queued-jobs'
import { addOwner } from '#lib/db/owner/owners'

type Counted = { said: string; pid: number; asWho: string }

/** Counts to a number, a step each twentieth of a second, and says which process counted, and as whom. */
const counting = (kind: string, isTakenUpAgain: boolean) =>
  new Jobs<{ to: number }, { at: number }, Counted>(kind, {
    ...{ most: 3, isTakenUpAgain, first: () => ({ at: 0 }) },
    async run({ to }, { signal, report }) {
      let at = 0
      for (; at < to && !signal.aborted; at++) {
        report({ at })
        await pause(50)
      }
      const asWho = who()
      const name = asWho.kind === 'account' ? asWho.name : asWho.kind
      return { said: signal.aborted ? 'stopped' : `counted to ${at}`, pid: process.pid, asWho: name }
    },
  })

export const counts = counting('counting', true)
/** What must not be done twice. */
export const carefulCounts = counting('careful counting', false)

/** A process of its own, as a second one of the program would be: adds the owner it is given, or takes up what waits until it is told to leave. */
const [, file, ownerName] = process.argv
const isOwn = process.send !== undefined && file?.endsWith('job-hand.ts')
if (isOwn && ownerName !== undefined) {
  await addOwner({ name: ownerName, kind: 'own' })
  await database().prisma.$disconnect()
} else if (isOwn) {
  process.on('message', async (said) => {
    if (said !== 'leave') return
    await leaveQueuedJobs()
    await database().prisma.$disconnect()
    process.exit(0)
  })
  await queuedJobs(database().url).work()
  process.send?.('ready')
}
