import { z } from 'zod'

/** What the manifest says an archive is. */
export const archiveFormat = 'chart-larder-collection'

const sha256 = z.string().regex(/^[0-9a-f]{64}$/)

/** One file inside the archive, by which a torn or altered one is found out. */
const partSchema = z.strictObject({
  path: z.string().min(1).max(300),
  bytes: z.int().min(0),
  sha256,
  /** Of a table or a CSV: how many rows it has, its heading not counted. */
  rows: z.int().min(0).optional(),
})
export type ManifestPart = z.infer<typeof partSchema>

/** Enough to tell whose archive it is and of which version; a newer one may say anything besides. */
export const manifestHeadSchema = z.looseObject({ format: z.literal(archiveFormat), version: z.int().min(1) })

export const manifestSchema = z.strictObject({
  format: z.literal(archiveFormat),
  version: z.int().min(1),
  madeAt: z.iso.datetime(),
  /** How many writes the collection had seen. */
  revision: z.int().min(0),
  parts: z.array(partSchema),
  /** Files that rows name and that were not on the disk: uploads/photos/… */
  missing: z.array(z.string().max(300)),
})
export type Manifest = z.infer<typeof manifestSchema>
