// pdf.js for tests. Loaded, it puts a JSON.stringify of its own in place for the whole process, many times slower; the engine's is put back.
const { stringify } = JSON
export const { getDocument, OPS } = await import('pdfjs-dist/legacy/build/pdf.mjs')
JSON.stringify = stringify
