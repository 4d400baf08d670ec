import { framingMargin } from '#lib/cloth/framing'
import { listFinishings } from '#lib/cloth/margins'
import type { FinishingRefused } from '#lib/settings/own-finishings'
import type { Settings } from '#lib/settings/settings'
import { Problem } from './problem'

export function describeFinishings(settings: Settings) {
  const { sumUm, marginUm } = framingMargin(settings.framing, settings.roundingUm)
  return {
    finishing: settings.finishing,
    finishings: listFinishings(settings),
    framing: settings.framing,
    framingSumUm: sumUm,
    framingMarginUm: marginUm,
  }
}

export function describeFinishingRefusal(refusal: FinishingRefused): Problem {
  switch (refusal.kind) {
    case 'name-taken':
      return new Problem('refused', `There is a way of finishing called ${refusal.name} already.`)
    case 'too-many':
      return new Problem('refused', `${refusal.most} added ways of finishing are as many as are kept.`)
    case 'not-yours':
      return new Problem('refused', `${refusal.name} is not among the ways of finishing that were added.`)
  }
}
