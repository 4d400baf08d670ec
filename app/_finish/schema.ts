import { z } from 'zod'
import { idText, optionalRead, versionText } from '#forms/fields'
import { say } from '#language/say'
import { type LengthUnit, parseClothSize } from '#lib/quantity/cloth-length'
import { parsePrice } from '#lib/quantity/money'

const mostUm = 100_000_000
const mostMinor = 100_000_000

export const frameFormSchema = (unit: LengthUnit) =>
  z.object({
    ...{ projectId: idText, version: versionText },
    frame: optionalRead(
      (text) => {
        const size = parseClothSize(text, unit)
        return size && Math.max(size.widthUm, size.heightUm) <= mostUm ? size : null
      },
      () => say('Give the frame as width by height: 14 x 11 in or 35 x 28 cm. Leave it blank where there is none.'),
    ),
    otherCost: optionalRead(
      (text) => {
        const minor = parsePrice(text)?.minor ?? null
        return minor !== null && minor <= mostMinor ? minor : null
      },
      () => say('Give what it cost as 14.50, or leave it out.'),
    ),
  })
