/** Called by Next once, when the server has started. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  // Nobody is let in before.
  const { registerGate } = await import('./app/_gate/gate')
  registerGate()
  const { startBackupClock } = await import('#lib/db/backup/backup-clock')
  const { startWork } = await import('#lib/db/job/every-kind')
  const { followChanges } = await import('#lib/db/answers/follow-changes')
  await startBackupClock()
  const unfollow = followChanges()
  void startWork()
  const { leaveQueuedJobs } = await import('#lib/db/job/queued-jobs')
  const { log } = await import('#lib/log/log')
  const shared = globalThis as { larderBeforeShutdown?: { name: string; end: () => unknown }[] }
  shared.larderBeforeShutdown ??= []
  shared.larderBeforeShutdown.push(
    { name: 'following the changes', end: unfollow },
    // What may be done again is handed to another process.
    { name: 'background jobs', end: leaveQueuedJobs },
    { name: 'the log', end: () => log.info('Stopped.') },
  )
}

type Asked = { method: string; path: string }

/** Called by Next for what broke while a page or action was answered; the page shows the same number. */
export async function onRequestError(error: unknown, { method, path }: Asked): Promise<void> {
  // In sentences Next has said it already.
  if (process.env.NEXT_RUNTIME !== 'nodejs' || process.env.LARDER_LOG !== 'json') return
  const { log } = await import('#lib/log/log')
  const { routeOf } = await import('#lib/log/route-of')
  const { digest } = error as { digest?: unknown }
  log.error('page fault', { id: typeof digest === 'string' ? digest : undefined, method, route: routeOf(path), error })
}
