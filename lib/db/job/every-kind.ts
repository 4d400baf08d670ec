import 'server-only'
// Whoever takes up what waits has to know how each kind is done.
import '../archive/archive-jobs'
import '../backup/backup-jobs'
import '../checking/check-jobs'
import '../cut-plan/cut-jobs'
import '../importing/import-jobs'
import '../planning/together/choice-jobs'
import '../reading/reading-jobs'
import { log } from '#lib/log/log'
import { database } from '../client'
import { queuedJobs } from './queued-jobs'

/** Called once when the program has started: take up what waits in a database that several processes share. */
export async function startWork(): Promise<void> {
  const { engine, url } = database()
  if (engine !== 'postgresql') return
  // A database that is away for the moment is no reason not to start: whoever asks for something begins this anew.
  await queuedJobs(url)
    .work()
    .catch((error) => log.warn('The background jobs cannot reach the database.', { error }))
}
