import { readFile } from 'node:fs/promises'
import path from 'node:path'

/** The reader of codes for browsers that have none of their own, from this server: no other is ever asked. */
export async function GET(): Promise<Response> {
  const file = path.join(process.cwd(), 'node_modules', 'zxing-wasm', 'dist', 'reader', 'zxing_reader.wasm')
  return new Response(new Uint8Array(await readFile(file)), {
    headers: { 'content-type': 'application/wasm', 'cache-control': 'public, max-age=86400' },
  })
}
