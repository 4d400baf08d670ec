import { calculateDrumStrip } from '#api/cloth-size'
import { describeSize } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import { drumStrip } from '#lib/cloth/drum-strip'

const calculate = serve(calculateDrumStrip, async ({ body }) => {
  const cut = drumStrip(body, body)
  return {
    roundUm: body.roundUm,
    exactCut: describeSize({ widthUm: cut.exactWidthUm, heightUm: cut.exactHeightUm }),
    cut: describeSize(cut),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
