import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { DesignCloth, TriedCount } from '#lib/coverage/design-cloth'
import type { Place } from '#lib/place/place'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { Count } from '#lib/quantity/count'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { countWords } from '#words/cloth-count'
import { fitSaid, overWords, roughSize } from '#words/cloth-size'
import { PiecePlace } from './piece-place'

type TriedSectionProps = {
  cloth: DesignCloth
  count: { ends: Count; picks: Count }
  places: ReadonlyMap<string, Place>
  unit: LengthUnit
}

/** How large it comes out on a count that was typed in, on hand or not. */
export function TriedSection({ cloth, count, places, unit }: TriedSectionProps) {
  const held = cloth.tried[0]?.heldCount ?? 0
  const title = say('On {ends}', { ends: countWords(count.ends, count.picks) })
  const rows = cloth.tried.flatMap((tried) =>
    [{ ...tried.upright, tried, isTurned: false }, ...(tried.turned ? [{ ...tried.turned, tried, isTurned: true }] : [])].map(
      (row) => ({ ...row, key: `${tried.over} ${row.isTurned}` }),
    ),
  )
  return (
    <Section
      title={title}
      id="count"
      note={
        held > 0 ? say('{held, plural, one {# piece} other {# pieces}} of it on hand.', { held }) : say('None of it is on hand.')
      }
    >
      <Ledger
        caption={title}
        isTight
        rows={rows}
        rowKey={({ key }) => key}
        columns={[
          {
            key: 'over',
            head: say('Worked'),
            phone: 'lead',
            cell: ({ tried, isTurned }) => (
              <b>
                {overWords(tried.over)}
                {isTurned && say(', turned')}
              </b>
            ),
          },
          {
            key: 'size',
            head: say('Comes out at'),
            isNumeric: true,
            phone: 'side',
            cell: ({ finished }) => roughSize(finished, unit),
          },
          { key: 'cut', head: say('To cut'), isNumeric: true, phone: 'labelled', cell: ({ cut }) => formatClothSize(cut, unit) },
          {
            key: 'piece',
            head: say('Best piece'),
            phone: 'line',
            cell: ({ tried, isTurned }) => (isTurned ? '' : <BestPiece tried={tried} places={places} unit={unit} />),
          },
        ]}
      />
    </Section>
  )
}

function BestPiece({ tried, places, unit }: { tried: TriedCount; places: ReadonlyMap<string, Place>; unit: LengthUnit }) {
  const [best] = tried.ranked
  if (!best) return tried.heldCount > 0 ? say('No free piece of it is large enough.') : ''
  return (
    <>
      <PiecePlace piece={best.piece} places={places} /> {fitSaid(best.fit, unit)}
      {best.fit.isTurned && say(', turned')}
    </>
  )
}
