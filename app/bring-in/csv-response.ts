const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'no-store' }

/** A CSV to keep, never to be shown in the browser. */
export const csvResponse = (csv: string, fileName: string): Response =>
  new Response(csv, {
    headers: {
      ...headers,
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="${plainName(fileName)}"; filename*=UTF-8''${encodeURIComponent(fileName)}`,
    },
  })

export const textResponse = (text: string, status: number): Response =>
  new Response(text, { status, headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' } })

/** For programs that only read plain letters in a file's name. */
const plainName = (fileName: string): string => fileName.replace(/[^\w. -]/g, '_')
