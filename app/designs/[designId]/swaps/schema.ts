import { z } from 'zod'
import { idText, isTicked, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'

export const acceptForProjectSchema = z.object({
  projectId: idText,
  version: versionText,
  threadId: idText,
  standInThreadId: idText,
  reason: optionalText(300),
  /** Sent where the person chose on this page to work two colours in one thread. */
  mayMerge: isTicked,
})

export const acceptForGoodSchema = z.object({
  threadId: idText,
  standInThreadId: idText,
  source: optionalText(200),
})

export const tryThreadSchema = z.object({
  designId: idText,
  threadId: idText,
  address: z.string().max(20_000),
  standIn: z
    .string()
    .trim()
    .min(1, { error: () => say('Which thread? Give maker and exact code.') })
    .max(200),
})
