import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import type { FrameChoices } from '#lib/coverage/design-frame'
import { parseClothLength, parseClothSize } from '#lib/quantity/cloth-length'
import type { Settings } from '#lib/settings/settings'

const widestSeenUm = 300_000
const widestOpeningUm = 3_000_000

export type FrameAddress = { choices: FrameChoices; said: Record<string, string>; wrong: string[] }

/** What the page's address asks, and a sentence for what of it does not read. */
export function readFrameAddress(search: Record<string, string | string[] | undefined>, settings: Settings): FrameAddress {
  const said: Record<string, string> = {}
  for (const name of ['opening', 'seen', 'over', 'piece']) {
    const value = search[name]
    const text = (Array.isArray(value) ? value[0] : value)?.trim().slice(0, 100)
    if (text) said[name] = text
  }
  const { lengthUnit, framing } = settings
  const wrong: string[] = []
  const opening = said.opening === undefined ? null : parseClothSize(said.opening, lengthUnit)
  const isTooWide = opening !== null && Math.max(opening.widthUm, opening.heightUm) > widestOpeningUm
  if (said.opening !== undefined && (opening === null || isTooWide))
    wrong.push(say('“{opening}” is no size of an opening. Write 5 x 7 or 13 × 18 cm.', { opening: said.opening }))
  const seen = said.seen === undefined ? framing.seenUm : parseClothLength(said.seen, lengthUnit)
  const isSeenRead = seen !== null && seen <= widestSeenUm
  if (!isSeenRead)
    wrong.push(
      say('“{seen}” is no width of cloth; {seen2} stands.', {
        seen: said.seen,
        seen2: formatClothLength(framing.seenUm, lengthUnit),
      }),
    )
  return {
    choices: {
      opening: isTooWide ? null : opening,
      seenUm: isSeenRead ? seen : framing.seenUm,
      over: said.over === '1' ? 1 : said.over === '2' ? 2 : null,
      pieceId: said.piece ?? null,
    },
    said,
    wrong,
  }
}
