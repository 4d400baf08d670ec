/** @type {import('next').NextConfig} */
export default {
  poweredByHeader: false,
  reactStrictMode: true,
  serverExternalPackages: [
    '@libsql/client',
    'libsql',
    '@prisma/adapter-libsql',
    '@prisma/adapter-pg',
    'pg',
    'sharp',
    'highs',
    'pdfkit',
    'pdfjs-dist',
    '@napi-rs/canvas',
    'tesseract.js',
    'yauzl',
    'yazl',
    'write-excel-file',
  ],
  // Types are checked by `npm test`; whoever only starts it need not wait for that again.
  typescript: { ignoreBuildErrors: true },
  experimental: { serverActions: { bodySizeLimit: '60mb' } },
  turbopack: { root: import.meta.dirname },
  outputFileTracingRoot: import.meta.dirname,
}
