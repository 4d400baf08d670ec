import sharp from 'sharp'
import { say } from '#language/say'
import { drawIcon, iconKinds } from '../../_offline/icon-drawing'

const drawn = new Map<string, Uint8Array<ArrayBuffer>>()

/** The program's own icons for a phone's home screen, drawn once a start. */
export async function GET(_request: Request, { params }: { params: Promise<{ file: string }> }): Promise<Response> {
  const { file } = await params
  const kind = Object.hasOwn(iconKinds, file) ? iconKinds[file] : undefined
  if (!kind) return new Response(say('There is no such icon.'), { status: 404, headers: { 'cache-control': 'no-store' } })
  const png =
    drawn.get(file) ??
    new Uint8Array(
      await sharp(Buffer.from(drawIcon(kind)))
        .png({ palette: true })
        .toBuffer(),
    )
  drawn.set(file, png)
  return new Response(png, { headers: { 'content-type': 'image/png', 'cache-control': 'public, max-age=86400' } })
}
