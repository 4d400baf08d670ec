import { browserFileOf } from '../../_language/catalogues'
import { findLanguage } from '../../_language/languages'

/** The words of a language for the browser. The address is another whenever they are. */
export async function GET(_request: Request, { params }: { params: Promise<{ file: string }> }): Promise<Response> {
  const { file } = await params
  const language = findLanguage(file.split('-', 1)[0])
  const found = language && browserFileOf(language)
  if (!found || found.address !== `/language/${file}`) return new Response(null, { status: 404 })
  return new Response(found.script, {
    headers: { 'content-type': 'text/javascript; charset=utf-8', 'cache-control': 'public, max-age=31536000, immutable' },
  })
}
