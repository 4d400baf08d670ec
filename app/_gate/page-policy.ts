const notPages =
  /^\/(?:_next|api|language|photos|files)\/|\/page-picture$|\.(?:pdf|csv|svg|png|webp|ico|ics|js|json|webmanifest|xlsx|zip|wasm)$/

/** Whether a path is answered with a page. What is built, fetched or downloaded has policies of its own, or needs none. */
export const isPagePath = (path: string): boolean => !notPages.test(path)

/**
 * What a page may load and run, as a Content-Security-Policy (W3C, Content Security Policy Level 3): its own scripts by their number and
 * what those load, its own styles, fonts and pictures, and nothing from anywhere else. Pictures may also be ones the page made itself: a
 * photograph before it is sent. Drawings set sizes and colours in style attributes.
 *
 * @param nonce  base64, of at least 128 bits, another for each answer
 * @param isDevelopment  the development server evaluates code and writes styles into the page
 */
export function pagePolicy({ nonce, isDevelopment }: { nonce: string; isDevelopment: boolean }): string {
  const directives: Record<string, string> = {
    'default-src': "'none'",
    // The reader of bar codes is WebAssembly.
    'script-src': `'self' 'nonce-${nonce}' 'strict-dynamic' 'wasm-unsafe-eval'${isDevelopment ? " 'unsafe-eval'" : ''}`,
    'script-src-attr': "'none'",
    'style-src-elem': `'self'${isDevelopment ? " 'unsafe-inline'" : ''}`,
    'style-src-attr': "'unsafe-inline'",
    'img-src': "'self' blob: data:",
    'font-src': "'self'",
    'connect-src': `'self'${isDevelopment ? ' ws:' : ''}`,
    'media-src': "'self' blob:",
    'manifest-src': "'self'",
    'worker-src': "'self' blob:",
    'form-action': "'self'",
    'frame-ancestors': "'none'",
    'base-uri': "'none'",
  }
  return Object.entries(directives)
    .map(([name, sources]) => `${name} ${sources}`)
    .join('; ')
}
