import { z } from 'zod'
import { idText, isTicked, versionText } from '#forms/fields'
import { say } from '#language/say'
import { fileRoles } from '#lib/db/file/keep-file'
import { filedNouns } from '#lib/db/file/kept-thing'

export const keepFileSchema = z.object({
  noun: z.enum(filedNouns),
  thingId: idText,
  role: z.enum(fileRoles, { error: () => say('Say what the file is.') }),
  isAnother: isTicked,
})

export const fileVersionSchema = z.object({ id: idText, version: versionText })

export const coverSchema = z.object({ chartId: idText, version: versionText })
