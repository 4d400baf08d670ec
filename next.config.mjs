/** Said with every answer, whatever it is. Pages have a policy of their own besides (app/_gate/page-policy.ts). */
const always = {
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'same-origin',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(self), geolocation=(), microphone=(), payment=(), usb=()',
}
const withNothing = "default-src 'none'; frame-ancestors 'none'"
const asHeaders = (values) => Object.entries(values).map(([key, value]) => ({ key, value }))

/** @type {import('next').NextConfig} */
export default {
  headers: async () => [
    { source: '/:path*', headers: asHeaders(always) },
    { source: '/api/:path*', headers: asHeaders({ 'Content-Security-Policy': withNothing }) },
  ],
  poweredByHeader: false,
  reactStrictMode: true,
  serverExternalPackages: [
    '@libsql/client',
    'libsql',
    '@prisma/adapter-libsql',
    '@prisma/adapter-pg',
    'pg',
    'pg-boss',
    'pino',
    'sharp',
    'highs',
    'pdfkit',
    'pdfjs-dist',
    '@napi-rs/canvas',
    'tesseract.js',
    'yauzl',
    'yazl',
    'write-excel-file',
    '@node-rs/argon2',
    'rate-limiter-flexible',
    '@simplewebauthn/server',
  ],
  // Types are checked by `npm test`; whoever only starts it need not wait for that again.
  typescript: { ignoreBuildErrors: true },
  experimental: {
    // Neither is of use to whoever serves it: a cache of 400 MB for the next build, and maps of what was minified.
    turbopackFileSystemCacheForBuild: false,
    turbopackSourceMaps: false,
    serverActions: { bodySizeLimit: '60mb' },
    authInterrupts: true,
  },
  turbopack: { root: import.meta.dirname },
  outputFileTracingRoot: import.meta.dirname,
}
