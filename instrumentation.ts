/** Called by Next once, when the server has started. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  // Nobody is let in before.
  const { registerGate } = await import('./app/_gate/gate')
  registerGate()
  const { startBackupClock } = await import('#lib/db/backup/backup-clock')
  await startBackupClock()
}
