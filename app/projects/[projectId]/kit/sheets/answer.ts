const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'private, no-store' }

export const refusal = (sentence: string, status: number): Response =>
  new Response(sentence, { status, headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' } })

export const pdfAnswer = (pdf: Buffer, fileName: string): Response =>
  new Response(new Uint8Array(pdf), {
    headers: {
      ...headers,
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${fileName}"`,
      'cross-origin-resource-policy': 'same-origin',
    },
  })
