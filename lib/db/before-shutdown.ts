import 'server-only'

/** What is to be ended, in their order, before the program's last moment: listeners, queues, pools. */
type Ending = { name: string; end: () => Promise<void> | void }

const shared = globalThis as unknown as { larderBeforeShutdown?: Ending[] }

/** Have something ended when the server is told to stop (app/server.mjs): requests are done with by then, and the database is still there. */
export function beforeShutdown(name: string, end: Ending['end']): void {
  shared.larderBeforeShutdown ??= []
  shared.larderBeforeShutdown = [...shared.larderBeforeShutdown.filter((other) => other.name !== name), { name, end }]
}
