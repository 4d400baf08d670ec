import 'server-only'
import { ok, type Result } from '#lib/result'
import { claimChart } from '../chart/claim-chart'
import { claimCloth } from '../cloth/claim-cloth'
import { claimNotion } from '../notion/claim-notion'
import type { PreparedPhoto } from '../photo/prepare-photo'
import { withPhoto } from '../photo/with-photo'
import { write } from '../write'

type Claimed = { id: string; version: number /** Null leaves the one there is. */; photo?: PreparedPhoto | null }

/** What an insurer asks of a thing, where its own card does not hold it. */
export type WorthInput = Claimed &
  ({ noun: 'cloth'; priceMinor: number | null } | { noun: 'notion' } | { noun: 'chart'; isOutOfPrint: boolean })

/** Keep what a thing cost, whether it can still be bought, and a photo of it. Another photo takes the place of the one before. */
export function keepWorth(input: WorthInput): Promise<Result<null, { kind: 'changed-meanwhile' }>> {
  return withPhoto(input.photo ?? null, (photoFile) =>
    write<null, { kind: 'changed-meanwhile' }>(async (open) => {
      const { id, version } = input
      const photo = photoFile === null ? {} : { photoFile }
      switch (input.noun) {
        case 'cloth': {
          const held = await claimCloth(open, { id, version })
          if (!held.ok) return held
          await open.tx.clothPiece.update({ where: { id }, data: { priceMinor: input.priceMinor, ...photo } })
          return ok(null)
        }
        case 'notion': {
          const held = await claimNotion(open, { id, version })
          if (!held.ok) return held
          await open.tx.notion.update({ where: { id }, data: photo })
          return ok(null)
        }
        case 'chart': {
          const held = await claimChart(open, { id, version })
          if (!held.ok) return held
          await open.tx.chart.update({ where: { id }, data: { isOutOfPrint: input.isOutOfPrint } })
          return ok(null)
        }
      }
    }),
  )
}
