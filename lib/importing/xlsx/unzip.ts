import { crc32, createInflateRaw } from 'node:zlib'
import yauzl from 'yauzl'
import { WorkbookFault } from './workbook-refused'

export type ZipPart = { name: string; bytes: number }

/** Large pieces: each is a way to another thread and back, which on a busy machine takes longer than inflating it. */
const pieceBytes = 512 * 1024

/** A zip's parts by name, each inflated only when it is asked for. */
export type Zip = {
  parts: ReadonlyMap<string, ZipPart>
  /** Give a part's bytes piece by piece; false when there is no such part. */
  read: (name: string, onPiece: (piece: Uint8Array) => void) => Promise<boolean>
}

const mostParts = 1_500
const mostInflatedBytes = 300 * 1024 * 1024
/** Deflate reaches 1:1032 at most; sheets of one cell repeated came to 1:120 at most where measured. */
const mostRatio = 400
/** Below this a part may be squeezed as much as it likes. */
const smallBytes = 1024 * 1024

/**
 * Open a zip held in memory. Nothing is inflated yet, but what the parts say they hold is added up and refused when it is too much; and as
 * each is read its real bytes are counted, so that one that says less than it holds is stopped where it goes beyond.
 *
 * @throws {WorkbookFault}
 */
export async function openZip(bytes: Uint8Array): Promise<Zip> {
  const file = await opened(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength))
  const entries = new Map<string, yauzl.Entry>()
  let declared = 0
  await new Promise<void>((resolve, reject) => {
    file.on('error', () => reject(new WorkbookFault({ kind: 'workbook-broken' })))
    file.on('end', () => resolve())
    file.on('entry', (entry: yauzl.Entry) => {
      declared += entry.uncompressedSize
      const isSwelling = entry.uncompressedSize > smallBytes && entry.uncompressedSize > entry.compressedSize * mostRatio
      if (entries.size >= mostParts) reject(new WorkbookFault({ kind: 'workbook-too-many', what: 'parts', most: mostParts }))
      else if (declared > mostInflatedBytes || isSwelling) reject(swells())
      else if (entry.isEncrypted()) reject(new WorkbookFault({ kind: 'workbook-broken' }))
      else {
        // Names differ in case from the ones that point to them where some programs wrote the file.
        entries.set(partKey(entry.fileName), entry)
        file.readEntry()
      }
    })
    file.readEntry()
  })
  let inflated = 0
  return {
    parts: new Map([...entries].map(([key, entry]) => [key, { name: entry.fileName, bytes: entry.uncompressedSize }])),
    read: async (name, onPiece) => {
      const entry = entries.get(partKey(name))
      if (entry === undefined) return false
      await new Promise<void>((resolve, reject) => {
        file.openReadStream(entry, { decompress: entry.compressionMethod === 8 ? false : null }, (error, stream) => {
          if (error) return reject(new WorkbookFault({ kind: 'workbook-broken' }))
          const fail = (fault: unknown = new WorkbookFault({ kind: 'workbook-broken' })) => {
            reject(fault)
            stream.destroy()
            inflate?.destroy()
          }
          const inflate = entry.compressionMethod === 8 ? createInflateRaw({ chunkSize: pieceBytes }) : null
          let bytes = 0
          let check = 0
          const source = inflate === null ? stream : stream.pipe(inflate)
          stream.on('error', () => fail())
          source.on('error', () => fail())
          source.on('end', () => {
            if (bytes === entry.uncompressedSize && check === entry.crc32) resolve()
            else fail()
          })
          source.on('data', (piece: Buffer) => {
            bytes += piece.length
            inflated += piece.length
            check = crc32(piece, check)
            try {
              if (bytes > entry.uncompressedSize) throw new WorkbookFault({ kind: 'workbook-broken' })
              if (inflated > mostInflatedBytes) throw swells()
              onPiece(piece)
            } catch (fault) {
              fail(fault)
            }
          })
        })
      })
      return true
    },
  }
}

const swells = () => new WorkbookFault({ kind: 'workbook-swells', mostMegabytes: mostInflatedBytes / 1024 / 1024 })

const partKey = (name: string): string => name.replace(/^\/+/, '').toLowerCase()

const opened = (buffer: Buffer): Promise<yauzl.ZipFile> =>
  new Promise((resolve, reject) => {
    yauzl.fromBuffer(buffer, { lazyEntries: true, validateEntrySizes: true }, (error, file) =>
      error ? reject(new WorkbookFault({ kind: 'workbook-broken' })) : resolve(file),
    )
  })
