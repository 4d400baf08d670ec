import { startServer } from './server'

/** The screens are built once, before the files that use them start side by side. */
export default async function buildScreens(): Promise<void> {
  const server = await startServer()
  await server.stop()
}
