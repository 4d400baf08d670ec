import { connect, createServer, type Socket } from 'node:net'

/**
 * One address in front of several servers of this machine: each new connection goes to the next of them, and stays with it. It passes bytes
 * on and knows nothing of what they say.
 */
export async function startRoundRobin(urls: readonly string[]): Promise<{ url: string; stop: () => Promise<void> }> {
  const ports = urls.map((url) => Number(new URL(url).port))
  const open = new Set<Socket>()
  let next = 0
  const server = createServer((outside) => {
    const inside = connect({ host: '127.0.0.1', port: ports[next % ports.length] as number })
    next++
    for (const [socket, other] of [
      [outside, inside],
      [inside, outside],
    ] as const) {
      open.add(socket)
      socket.setNoDelay(true)
      socket.pipe(other)
      // Whichever end breaks off, the other learns of it.
      socket.on('error', () => other.destroy())
      socket.on('close', () => {
        open.delete(socket)
        other.end()
      })
    }
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const address = server.address()
  if (address === null || typeof address === 'string') throw new TypeError('startRoundRobin: it listens on no port')
  return {
    url: `http://127.0.0.1:${address.port}`,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        for (const socket of open) socket.destroy()
      }),
  }
}
