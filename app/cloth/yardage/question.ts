import { z } from 'zod'
import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import { findFinishing, type OwnFinishing } from '#lib/cloth/margins'
import type { Bolt } from '#lib/cloth/yardage'
import { parseClothLength, parseClothSize } from '#lib/quantity/cloth-length'
import { type Count, parseCount } from '#lib/quantity/count'
import type { Settings } from '#lib/settings/settings'

export const mostKitsOffBolt = 9_999
const text = z.string().trim().max(200).catch('').default('')
const whole = (least: number) => z.coerce.number().int().min(least).max(mostKitsOffBolt).nullable().catch(null).default(null)

export const yardageSchema = z.object({
  /** What was typed: a size to cut, or the name of a design. */
  what: text,
  design: text,
  kits: z.preprocess((value) => (value === '' ? undefined : value), whole(1)),
  spares: z.preprocess((value) => (value === '' ? undefined : value), whole(0)),
  finishing: text,
  count: text,
  turn: z.enum(['yes', 'no']).catch('yes').default('yes'),
  width: text,
  selvedge: text,
  straightening: text,
  step: text,
  piece: text,
  /** Other sizes wanted off the same length: "6 of 8 x 8; 2 of 4 x 12". */
  also: text,
})
export type YardageQuery = z.infer<typeof yardageSchema>

const boltFields = () =>
  ({
    width: { name: say('The bolt’s width'), key: 'widthUm', least: 100_000, most: 5_000_000 },
    selvedge: { name: say('The selvedge'), key: 'selvedgeUm', least: 0, most: 500_000 },
    straightening: { name: say('What straightening takes'), key: 'straighteningUm', least: 0, most: 500_000 },
    step: { name: say('The step it is sold in'), key: 'stepUm', least: 1_000, most: 2_000_000 },
  }) as const satisfies Record<string, { name: string; key: keyof Bolt; least: number; most: number }>

/** Figures as the person typed them, the settings' where nothing was typed; each that cannot be read is said in a sentence. */
export function readQuestion(query: YardageQuery, settings: Settings) {
  const unit = settings.lengthUnit
  const wrong: string[] = []
  const bolt: Bolt = { ...settings.bolt }
  for (const [field, { name, key, least, most }] of Object.entries(boltFields())) {
    const typed = query[field as keyof ReturnType<typeof boltFields>]
    if (typed === '') continue
    const um = parseClothLength(typed, unit)
    if (um === null || um < least || um > most)
      wrong.push(
        say('{name} is a length such as {bolt}; “{typed}” is not.', {
          name,
          bolt: formatClothLength(settings.bolt[key], unit),
          typed,
        }),
      )
    else bolt[key] = um
  }
  if (2 * bolt.selvedgeUm >= bolt.widthUm) {
    wrong.push(say('The two selvedges leave nothing of the bolt’s width.'))
    bolt.selvedgeUm = 0
  }
  const finishing: OwnFinishing = findFinishing(settings, query.finishing) ??
    findFinishing(settings, settings.finishing) ?? { name: 'framed', margins: settings.margins.framed }
  const count = query.count === '' ? null : readCount(query.count)
  if (query.count !== '' && count === null)
    wrong.push(say('A count is 28, or 28 over two, or 110 per 10 cm; “{count}” is not.', { count: query.count }))
  const also = query.also
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .flatMap((part) => {
      const [, copies, size] = /^(\d{1,3})\s*(?:of|von|×|x)?\s+(.+)$/iu.exec(part) ?? []
      const read = size === undefined ? null : parseClothSize(size, unit)
      if (read && Number(copies) > 0) return [{ ...read, copies: Number(copies) }]
      wrong.push(say('Other sizes are given as 6 of 8 x 8; 2 of 4 x 12. “{part}” is not.', { part }))
      return []
    })
  return { bolt, finishing, count, wrong, also, size: parseClothSize(query.what, unit) }
}

/** Cloth off a bolt is taken to have the same count both ways. */
function readCount(typed: string): { count: Count; over: 1 | 2 | null } | null {
  const read = parseCount(typed)
  return read && { count: read.ends, over: read.over }
}

/** What a question says, as the fields of a form: blank ones, and those as they would be anyway, are left out. */
export const yardageFields = (query: YardageQuery): Record<string, string> =>
  Object.fromEntries(
    Object.entries(query).flatMap(([name, value]) =>
      value === null || value === '' || (name === 'turn' && value === 'yes') ? [] : [[name, String(value)]],
    ),
  )

/** The address that asks the same with some of it otherwise. */
export const yardageHref = (query: YardageQuery, change: Partial<YardageQuery>): string =>
  `/cloth/yardage?${new URLSearchParams(yardageFields({ ...query, ...change }))}`
