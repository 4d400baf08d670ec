import 'server-only'
import { log } from '#lib/log/log'
import { asProgram } from '../access/asking'
import { database } from '../client'
import { isListening, listen } from '../notices'
import { revisionNotice } from '../write-gate'
import { getAnswers, hasAnswers } from './get-answers'

/** Several notices at once are one catching up. */
const settleMs = 50
/** Where there are no notices the revision is asked for so often; where there are, now and then all the same, since one may be missed. */
const askMs = 3_000
const askWhileListeningMs = 30_000

/**
 * Bring the answers this process holds up to date soon after another has written, though nobody asks: whoever asks next then waits for little.
 * PostgreSQL only; a process that has SQLite to itself knows what it wrote.
 *
 * @returns ends it
 */
export function followChanges(): () => void {
  const { engine, url } = database()
  if (engine !== 'postgresql') return () => {}
  let soon: NodeJS.Timeout | null = null
  let askedMs = 0
  let isAway = false
  const catchUp = async () => {
    soon = null
    askedMs = Date.now()
    if (!hasAnswers()) return
    try {
      await asProgram(getAnswers)
      isAway = false
    } catch (error) {
      if (!isAway) log.warn('The answers could not be brought up to date.', { error })
      isAway = true
    }
  }
  const heard = () => {
    soon ??= setTimeout(() => void catchUp(), settleMs).unref()
  }
  const hush = listen(url, revisionNotice, heard)
  const timer = setInterval(() => {
    const every = isListening(url) ? askWhileListeningMs : askMs
    if (Date.now() - askedMs >= every) heard()
  }, askMs / 3).unref()
  return () => {
    hush()
    clearInterval(timer)
    if (soon) clearTimeout(soon)
  }
}
