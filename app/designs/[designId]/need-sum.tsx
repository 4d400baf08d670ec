import type { ReactNode } from 'react'
import { say } from '#language/say'
import type { ThreadCover } from '#lib/coverage/line-status'
import type { ThreadNeed } from '#lib/coverage/need'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { FreeStock } from '#lib/stock/free-stock'
import type { ThreadLine } from '#lib/thread/thread'
import { LinkButton } from '#ui/button'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { threadLength } from '#words/amounts'
import { NeedSlip } from '../../_things/need-slip'

type NeedSumProps = {
  need: ThreadNeed
  cover: ThreadCover
  free: FreeStock | undefined
  line: ThreadLine
  unit: ThreadLengthUnit
  placeWords: (placeId: string | null) => ReactNode
}

/** How much of a thread the design needs and how much of it is free, written out. All millimetres are of one strand. */
export function NeedSum({ need, cover, free, line, unit, placeWords }: NeedSumProps) {
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  const freeRows: SumRow[] = [
    { label: say('Owned'), figure: length(cover.ownedStrandTenths) },
    ...(free?.elsewhere ?? []).map(({ why, strandTenths, placeId }) => ({
      label: (
        <>
          {why === 'out' ? say('Out, in ') : say('Promised, in ')}
          {placeWords(placeId)}
        </>
      ),
      figure: strandTenths > 0 ? `− ${length(strandTenths)}` : say('some'),
    })),
    { label: say('Free'), figure: length(cover.freeStrandTenths), kind: 'end' },
  ]
  const lots = cover.lots.filter(({ lot }) => lot !== null)
  return (
    <Sums>
      <NeedSlip
        need={need}
        line={line}
        unit={unit}
        putUps={{ strandTenths: cover.putUpStrandTenths, needed: cover.needPutUps }}
      />
      <Sum
        title={say('What is free')}
        rows={freeRows}
        note={
          <>
            {[
              ...lots.map(({ lot, freeStrandTenths }) =>
                say('Lot {lot}: {length} free.', { lot, length: length(freeStrandTenths) }),
              ),
              ...(cover.isSomeHeld ? [say('A part of unknown length is held too; measure it to count it.')] : []),
              ...(line.lotsMatter ? [say('Lots matter for this line: all of it must come from one.')] : []),
            ].join(' ')}{' '}
            <LinkButton kind="quiet" href={reachHref(need)}>
              {say('How far does it go?')}
            </LinkButton>
          </>
        }
      />
    </Sums>
  )
}

/** The page that says how many stitches a length covers, on the cloth and with the strands of this need. */
function reachHref({ threadId, from }: ThreadNeed): string {
  const counted = from.find((part) => part.kind === 'tally' || part.kind === 'estimated')
  if (!counted) return `/threads/${threadId}/reach`
  // An address is the same in every language.
  const perInch = (pitchUm: number) => String(Number((25_400 / pitchUm).toFixed(3)))
  const { acrossUm, upUm, strands, use } = counted
  const cloth = acrossUm === upUm ? perInch(acrossUm) : `${perInch(acrossUm)} x ${perInch(upUm)}`
  const query = new URLSearchParams({
    cloth: `${cloth} over 1`,
    strands: String(strands),
    allowance: String(use.allowance),
  })
  return `/threads/${threadId}/reach?${query}`
}
