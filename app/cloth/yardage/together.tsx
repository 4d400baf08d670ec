import { setImmediate } from 'node:timers/promises'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { searchSetYardage } from '#lib/cloth/set-yardage'
import type { YardageRequest } from '#lib/cloth/yardage'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { Section } from '#ui/section'
import { listed } from '#words/amounts'
import { boltLengthBothWays } from '#words/yardage'
import { BoltDrawing } from './bolt-drawing'
import s from './yardage.module.css'

type TogetherProps = {
  asked: YardageRequest
  also: readonly { widthUm: number; heightUm: number; copies: number }[]
  mayTurn: boolean
  unit: LengthUnit
}

/** Pieces of several sizes laid out on one length. */
export async function TogetherOnOneLength({ asked, also, mayTurn, unit }: TogetherProps) {
  const { bolt, gapUm } = asked
  const others = also.map(({ widthUm, heightUm, copies }, at) => ({
    ...{ id: `also ${at}`, copies },
    ways: [
      { widthUm, heightUm, isTurned: false },
      ...(mayTurn && widthUm !== heightUm ? [{ widthUm: heightUm, heightUm: widthUm, isTurned: true }] : []),
    ],
  }))
  const search = searchSetYardage({ wishes: [{ id: 'first', copies: asked.copies, ways: asked.ways }, ...others], bolt, gapUm })
  let step = search.next()
  while (!step.done) {
    await setImmediate()
    step = search.next()
  }
  const found = step.value
  const words = listed([
    say('{copies} of {rest}', { copies: asked.copies, rest: asked.ways[0] ? formatClothSize(asked.ways[0], unit) : '' }),
    ...also.map((one) => say('{copies} of {one}', { copies: one.copies, one: formatClothSize(one, unit) })),
  ])
  return (
    <Section title={say('All on one length')} id="together" note={words}>
      {found === null ? (
        <p>{say('One of these is wider than the bolt.')}</p>
      ) : (
        <div className={s.two}>
          <BoltDrawing
            sentence={say('A length of {toBuy} off the bolt, with {words}.', {
              toBuy: formatClothLength(found.toBuyUm, unit),
              words,
            })}
            bolt={bolt}
            lengthUm={found.toBuyUm}
            boxes={found.boxes}
            unit={unit}
          />
          <div className={s.notes}>
            <p className={s.answer}>
              {sayParts('<b>Buy {boltLengthBothWays}</b> for all of them.', {
                b: (words) => <b>{words}</b>,
                boltLengthBothWays: boltLengthBothWays(found.toBuyUm, unit),
              })}
            </p>
            <p className="quiet">
              {found.isProved
                ? say('One step less is too short, however it is cut from edge to edge.')
                : say('The shortest that was found: a shorter one may be possible.')}
            </p>
          </div>
        </div>
      )}
    </Section>
  )
}
