import { setTimeout as pause } from 'node:timers/promises'
import { who } from '#lib/db/access/asking'
import { database } from '#lib/db/client'
import { Jobs } from '#lib/db/job/jobs'
import { leaveQueuedJobs, queuedJobs } from '#lib/db/job/queued-jobs'

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

/** A process of its own that takes up what waits, as a second one of the program would. */
if (process.send && process.argv[1]?.endsWith('job-hand.ts')) {
  process.on('message', async (said) => {
    if (said !== 'leave') return
    await leaveQueuedJobs()
    await database().prisma.$disconnect()
    process.exit(0)
  })
  await queuedJobs(database().url).work()
  process.send('ready')
}
