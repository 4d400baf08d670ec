// pdf.js for tests. Loaded, it puts a JSON of its own in place for the whole process, many times slower; the engine's is put back.
const { parse, stringify } = JSON
export const { getDocument, OPS } = await import('pdfjs-dist/legacy/build/pdf.mjs')
Object.assign(JSON, { parse, stringify })
