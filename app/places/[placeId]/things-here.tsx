import { say } from '#language/say'
import type { ThingHere, ThreadHere } from '#lib/db/place/contents'
import type { PlaceRecord } from '#lib/db/place/place-rows'
import type { Settings } from '#lib/settings/settings'
import { PlaceLabel } from '#trade/place-label'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { dayOf } from '#words/date'
import { ThingName, thingWords } from '../../_things/thing-name'
import { positionIn } from '../plan-cells'

/** Open questions by the thing they are about. */
export type Questions = ReadonlyMap<string, string>

type InOrderProps = {
  things: readonly ThreadHere[]
  place: PlaceRecord
  hasCompartments: boolean
  questions: Questions
  settings: Settings
}

/** What lives in a drawer, one line a batch, in the order it lies in. */
export function InOrder({ things, place, hasCompartments, questions, settings }: InOrderProps) {
  const position = hasCompartments
    ? [
        {
          key: 'position',
          head: say('Compartment'),
          cell: ({ home }: ThreadHere) =>
            home && <PlaceLabel label={positionIn(place.label, home.label)} href={`/places/${home.id}`} />,
          phone: 'side' as const,
        },
      ]
    : []
  return (
    <Ledger
      caption={say('What lies in {label}, left to right', { label: place.label })}
      rows={things}
      rowKey={({ id }) => id}
      isTight
      columns={[
        ...position,
        nameColumn(settings),
        missingColumn(questions),
        {
          key: 'out',
          head: say('Out'),
          cell: ({ isOut, current, outSince }) =>
            isOut &&
            current && (
              <PlaceLabel
                label={current.label}
                href={`/places/${current.id}`}
                isAway
                note={outSince && say('out since {outSince}', { outSince: dayOf(outSince) })}
              />
            ),
          isAtEnd: true,
          phone: 'line',
        },
      ]}
    />
  )
}

type ElsewhereProps = {
  things: readonly ThreadHere[]
  caption: string
  settings: Settings
  untilOf?: (thing: ThreadHere) => Date | null
}

/** Thread that does not live here: where it lives, and where it is when it is out. */
export function Elsewhere({ things, caption, settings, untilOf }: ElsewhereProps) {
  return (
    <Ledger
      caption={caption}
      rows={things}
      rowKey={({ id }) => id}
      isTight
      columns={[
        nameColumn(settings),
        ...(untilOf
          ? [
              {
                key: 'until',
                head: say('Lived here until'),
                cell: (thing: ThreadHere) => {
                  const until = untilOf(thing)
                  return until ? <span className="nb">{dayOf(until)}</span> : say('not known')
                },
                phone: 'labelled' as const,
              },
            ]
          : []),
        {
          key: 'home',
          head: say('Lives in'),
          cell: ({ home, isOut, current }) =>
            home ? (
              <PlaceLabel
                label={home.label}
                href={`/places/${home.id}`}
                note={isOut && current && say('out in {label}', { label: current.label })}
              />
            ) : (
              say('no place yet')
            ),
          isAtEnd: true,
          phone: 'side',
        },
      ]}
    />
  )
}

type ThingsProps = { things: readonly ThingHere[]; caption: string; questions: Questions; settings: Settings }

export const Things = ({ things, caption, questions, settings }: ThingsProps) => (
  <Ledger caption={caption} rows={things} rowKey={({ id }) => id} columns={[nameColumn(settings), missingColumn(questions)]} />
)

/** The record says it is here: where to say that it is not. */
export const missingColumn = (questions: Questions): Column<ThingHere> => ({
  key: 'missing',
  head: say('Not there?'),
  headIsHidden: true,
  cell: (thing) => {
    const question = questions.get(thing.id)
    return question ? (
      <Link href={`/missing/${question}`} className="do">
        {say('being looked for')}
      </Link>
    ) : (
      <Link href={`/missing/new?noun=${thing.noun}&id=${thing.id}`} className="quiet">
        <small>{say('not there?')}</small>
        <span className="vh"> {thingWords(thing)}</span>
      </Link>
    )
  },
  isAtEnd: true,
  phone: 'side',
  isOffPaper: true,
})

export const nameColumn = (settings: Settings): Column<ThingHere> => ({
  key: 'thing',
  head: say('What'),
  cell: (thing) => <ThingName thing={thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />,
  phone: 'lead',
})
