import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { OpeningCount } from '#lib/cloth/frame-opening'
import type { Place } from '#lib/place/place'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { PlaceLabel } from '#trade/place-label'
import { type Group, Ledger } from '#ui/ledger'
import { listed } from '#words/amounts'
import { roughSize } from '#words/cloth-size'
import { openingCountName, openingPieceWords, seenWords } from './words'

type OpeningTableProps = { counts: readonly OpeningCount[]; places: ReadonlyMap<string, Place>; unit: LengthUnit }

const groupOf = ({ way, pieces, pieceCount }: OpeningCount): string => {
  const fits = way.kind === 'fits' ? say('Fits') : say('Goes in, with less plain cloth seen')
  return pieces.length > 0
    ? say('{fits}, from a piece held', { fits })
    : pieceCount > 0
      ? say('{fits}, but no piece held is large enough', { fits })
      : say('{fits}, none on hand', { fits })
}

/** What each count does for the opening, what does it from a piece held first. */
export function OpeningTable({ counts, places, unit }: OpeningTableProps) {
  const groups = new Map<string, OpeningCount[]>()
  const tooLarge: string[] = []
  for (const count of counts) {
    if (count.way.kind === 'too-large') tooLarge.push(`${openingCountName(count)} (${seenWords(count.way, unit)})`)
    else groups.set(groupOf(count), [...(groups.get(groupOf(count)) ?? []), count])
  }
  const leftOut = tooLarge.length > 0 && say('Too large for it: {tooLarge}.', { tooLarge: listed(tooLarge) })
  if (groups.size === 0) return <p>{leftOut}</p>
  return (
    <Ledger
      caption={say('What does for the opening')}
      isTight
      groups={[...groups].map(([title, rows]): Group<OpeningCount> => ({ key: title, title, rows }))}
      rowKey={(row) => openingCountName(row)}
      foot={leftOut}
      columns={[
        { key: 'cloth', head: say('Cloth'), phone: 'lead', cell: (row) => <b>{openingCountName(row)}</b> },
        {
          key: 'size',
          head: say('Comes out at'),
          isNumeric: true,
          phone: 'side',
          cell: ({ way }) => roughSize(way.finished, unit),
        },
        {
          key: 'seen',
          head: say('Plain cloth seen'),
          phone: 'line',
          cell: ({ way }) => seenWords(way, unit),
        },
        {
          key: 'opening',
          head: say('Opening stands'),
          isNumeric: true,
          phone: 'labelled',
          cell: ({ way }) => formatClothSize(way.opening, unit),
        },
        {
          key: 'cut',
          head: say('To cut'),
          isNumeric: true,
          phone: 'labelled',
          cell: ({ way }) => formatClothSize(way.cut, unit),
        },
        { key: 'piece', head: say('Piece'), phone: 'line', cell: (row) => openingPieceWords(row, unit) },
        {
          key: 'place',
          head: say('Place'),
          isAtEnd: true,
          phone: 'side',
          cell: ({ pieces }) => {
            const piece = pieces[0]?.piece
            const place = places.get(piece?.currentPlaceId ?? piece?.homePlaceId ?? '')
            return place && <PlaceLabel label={place.label} href={`/places/${place.id}`} />
          },
        },
      ]}
    />
  )
}
