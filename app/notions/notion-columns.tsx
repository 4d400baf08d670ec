import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { NotionListed } from '#lib/db/notion/queries'
import { toBuy } from '#lib/notion/to-buy'
import { PlaceLabel } from '#trade/place-label'
import { TrayWord } from '#trade/tray'
import type { Column } from '#ui/ledger'
import { Link } from '#ui/link'
import { notionKindWords, notionTitle, toBuyWords } from '#words/notion'
import { tickColumn } from '../_listing/tick-column'
import type { NotionColumnKey } from './columns'

/** A notion as the list has it: plain data, so that it can be sent. */
export type NotionRow = Omit<NotionListed, 'outSince'>

/** What every row of a list shares. */
export type NotionColumnsAsked = {
  shown: readonly NotionColumnKey[]
  /** Goods of more than one owner are shown. */
  hasOwners: boolean
  /** Under which what is chosen of the list is kept. */
  list: string
}

/** The columns shown, in their order; drawn by the server and by the window over a long list alike. */
export function notionColumns({ shown, hasOwners, list }: NotionColumnsAsked): Column<NotionRow>[] {
  const columns: Record<NotionColumnKey, Omit<Column<NotionRow>, 'key'>> = {
    name: { head: say('Notion'), width: '18rem', cell: (notion) => <b>{notionTitle(notion)}</b>, phone: 'lead' },
    kind: { head: say('Kind'), width: '9rem', cell: ({ kind }) => notionKindWords[kind].one, phone: 'hide' },
    count: {
      head: say('How many'),
      width: '6rem',
      cell: ({ count }) => <span className="nb">× {count}</span>,
      isNumeric: true,
      phone: 'side',
    },
    words: {
      head: say('To know'),
      width: '18rem',
      cell: (notion) => {
        const buying = toBuy(notion)
        return (
          <>
            {buying && <TrayWord state="short" word={toBuyWords(buying)} />}
            {notion.usedBy && (
              <span>
                {sayParts('in use for {title}', {
                  title: (
                    <Link href={`/projects/${notion.usedBy.id}`} className="title">
                      {notion.usedBy.title}
                    </Link>
                  ),
                })}
              </span>
            )}
            {hasOwners && <span className="quiet"> {notion.ownerName}’s</span>}
          </>
        )
      },
      phone: 'line',
    },
    minimum: {
      head: say('Least to keep'),
      width: '6rem',
      isNumeric: true,
      cell: ({ minimum }) => minimum ?? '',
      phone: 'hide',
    },
    pack: {
      head: say('In a pack'),
      width: '6rem',
      isNumeric: true,
      cell: ({ packOf }) => packOf ?? '',
      phone: 'hide',
    },
    owner: { head: say('Owner'), width: '9rem', cell: ({ ownerName }) => ownerName, phone: 'hide' },
    place: {
      head: say('Place'),
      width: '9rem',
      cell: ({ current, home }) =>
        current ? (
          <PlaceLabel
            label={current.label}
            href={`/places/${current.id}`}
            livesIn={home && home.id !== current.id ? home.label : undefined}
          />
        ) : (
          <span className="quiet">{say('no place yet')}</span>
        ),
      isAtEnd: true,
      phone: 'side',
    },
  }
  return [tickColumn<NotionRow>(list, ({ id }) => id, notionTitle), ...shown.map((key) => ({ key, ...columns[key] }))]
}

export const notionRowHref = ({ id }: Pick<NotionRow, 'id'>): string => `/notions/${id}`
