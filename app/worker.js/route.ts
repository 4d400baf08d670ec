import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { isOfflineOffered } from '../_offline/offered'

const headers = {
  'content-type': 'text/javascript; charset=utf-8',
  // Looked at anew each time: by it devices hear of another version.
  'cache-control': 'no-cache',
  'content-security-policy': "default-src 'none'; connect-src 'self'",
}

/** Takes the place of a worker that is not offered any more: throws away what was kept, and itself. */
const ending = `self.addEventListener('install', () => self.skipWaiting())
self.addEventListener('activate', (event) =>
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter((name) => /^(larder|serwist)-/.test(name)).map((name) => caches.delete(name))))
      .then(() => self.registration.unregister()),
  ),
)
`

const read = (...names: string[]) => readFile(path.join(process.cwd(), ...names), 'utf8')

export const dynamic = 'force-dynamic'

/** What runs on the device between pages and the network. The build's own name makes another of each version. */
export async function GET(): Promise<Response> {
  if (!isOfflineOffered()) return new Response(ending, { headers })
  const [buildId, worker] = await Promise.all([
    read('.next', 'BUILD_ID').catch(() => ''),
    read('app', '_offline', 'built', 'worker.js'),
  ])
  return new Response(`/* ${buildId.trim()} */\n${worker}`, { headers })
}
