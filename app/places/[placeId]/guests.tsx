import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { CameFrom } from '#lib/db/place/beyond-place'
import type { ThingHere } from '#lib/db/place/contents'
import type { PlaceRecord } from '#lib/db/place/place-rows'
import type { Settings } from '#lib/settings/settings'
import { PlaceLabel } from '#trade/place-label'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { dayOf } from '#words/date'
import { PutBack } from '../out-table'
import s from './place.module.css'
import { missingColumn, nameColumn, type Questions } from './things-here'

type GuestsProps = {
  things: readonly ThingHere[]
  place: PlaceRecord
  /** The projects kitted here. */
  kits: readonly { id: string; title: string }[]
  cameFrom: ReadonlyMap<string, CameFrom>
  questions: Questions
  settings: Settings
}

/** What is in a place for a while: for whom it came, where it lives, and the way back. */
export function Guests({ things, place, kits, cameFrom, questions, settings }: GuestsProps) {
  return (
    <Ledger
      caption={say('In {label}, living elsewhere', { label: place.label })}
      rows={things}
      rowKey={({ noun, id }) => `${noun} ${id}`}
      columns={[
        {
          key: 'home',
          head: say('Back to'),
          cell: ({ home }) =>
            home ? (
              <PlaceLabel label={home.label} href={`/places/${home.id}`} />
            ) : (
              <Link href="/places">{say('no place yet')}</Link>
            ),
          phone: 'side',
        },
        nameColumn(settings),
        missingColumn(questions),
        {
          key: 'for',
          head: say('Came for'),
          cell: ({ id }) => <CameForCell came={cameFrom.get(id)} kits={kits} />,
          phone: 'labelled',
        },
        {
          key: 'since',
          head: say('Since'),
          cell: ({ outSince }) => outSince && <span className="nb">{dayOf(outSince)}</span>,
          phone: 'labelled',
        },
        {
          key: 'back',
          head: say('Put back'),
          headIsHidden: true,
          cell: (thing) => thing.isOut && <PutBack thing={thing} />,
          isAtEnd: true,
          phone: 'wide',
          isOffPaper: true,
        },
      ]}
    />
  )
}

type CameForProps = { came: CameFrom | undefined; kits: readonly { id: string; title: string }[] }

/** The project a leftover came from: the one it is promised to, else the one it was taken for, else the only one in this bag. */
function CameForCell({ came, kits }: CameForProps) {
  if (!came) {
    const [only] = kits
    if (!only || kits.length > 1) return <span className="faint">{say('not said')}</span>
    return sayParts('not said; the bag is that of {title}', {
      title: (
        <Link href={`/projects/${only.id}`} className={`title ${s.project}`}>
          {only.title}
        </Link>
      ),
    })
  }
  const { promisedTo, takenFor, from } = came
  const isFinished = promisedTo.length === 0 && takenFor !== null
  const projects = promisedTo.length > 0 ? promisedTo : takenFor ? [takenFor] : []
  return (
    <>
      {projects.map(({ id, title }) => (
        <Link key={id} href={`/projects/${id}`} className={`title ${s.project}`}>
          {title}
        </Link>
      ))}
      {isFinished && <small className="quiet">{say('promised no more')}</small>}
      {projects.length === 0 && from && (
        <span className="quiet">{sayParts('taken from {label}, for no project', { label: from.label })}</span>
      )}
    </>
  )
}
