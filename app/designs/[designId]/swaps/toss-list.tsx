import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import type { SwapBoard } from '#lib/db/swap/propose-swaps'
import { walkRanks } from '#lib/place/walk-order'
import { isOut } from '#lib/stock/batch'
import { PlaceLabel } from '#trade/place-label'
import { type Column, Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { differenceWords } from '#words/swaps'
import { Named } from './swap-card'
import s from './swaps.module.css'

/** Candidates pulled of one thread beside the one chosen. */
const alsoPulled = 2

type Pulled = {
  /** 1: the charted thread; 1a, 1b: what might stand in for it. */
  number: string
  threadId: string
  /** Null for the charted thread itself. */
  inPlaceOf: string | null
  what: string
  places: { id: string; label: string; rank: number; isAway: boolean }[]
}

type TossListProps = {
  board: SwapBoard
  answers: Answers
  ownerIds: readonly string[]
  nameOf: (threadId: string) => string
}

/** Everything to lay on the cloth side by side, in the order one walks past it. */
export function TossList({ board, answers, ownerIds, nameOf }: TossListProps) {
  const ranks = walkRanks([...answers.world.places.values()])
  const placesOf = (threadId: string) =>
    answers
      .batchesOf(threadId, ownerIds)
      .filter((batch) => batch.wholePutUps > 0 || batch.partCertainty !== 'none')
      .flatMap((batch) => {
        const place = answers.world.places.get(batch.currentPlaceId ?? batch.homePlaceId ?? '')
        return place ? [{ id: place.id, label: place.label, rank: ranks.get(place.id) ?? 0, isAway: isOut(batch) }] : []
      })
      .sort((a, b) => a.rank - b.rank)
      .filter((place, at, all) => all.findIndex(({ id }) => id === place.id) === at)
  const pulled = board.lines.flatMap((line, at): Pulled[] => {
    const { chosen, others, nearer } = line
    const laid = [...(chosen ? [chosen] : []), ...(chosen ? others : nearer).slice(0, alsoPulled)]
    return [
      {
        number: String(at + 1),
        threadId: line.charted.threadId,
        inPlaceOf: null,
        what: say('as charted'),
        places: placesOf(line.charted.threadId),
      },
      ...laid.map(({ candidate, verdict }, turn) => ({
        number: `${at + 1}${String.fromCharCode(97 + turn)}`,
        threadId: candidate.thread.threadId,
        inPlaceOf: nameOf(line.charted.threadId),
        what: differenceWords(verdict),
        places: placesOf(candidate.thread.threadId),
      })),
    ]
  })
  const held = pulled.filter(({ places }) => places.length > 0)
  const inOrder = held.toSorted((a, b) => (a.places[0]?.rank ?? 0) - (b.places[0]?.rank ?? 0))
  const columns: Column<Pulled>[] = [
    { key: 'number', head: say('No.'), width: '3.5rem', phone: 'mark', cell: ({ number }) => <b>{number}</b> },
    {
      key: 'thread',
      head: say('Thread'),
      phone: 'lead',
      cell: ({ threadId }) => <Named answers={answers} threadId={threadId} />,
    },
    { key: 'of', head: say('In place of'), phone: 'labelled', cell: ({ inPlaceOf }) => inPlaceOf ?? say('itself') },
    { key: 'what', head: say('Difference'), phone: 'line', cell: ({ what }) => what },
    {
      key: 'place',
      head: say('Place'),
      phone: 'side',
      isAtEnd: true,
      cell: ({ places }) => (
        <span className={s.places}>
          {places.map(({ id, label, isAway }) => (
            <PlaceLabel key={id} label={label} href={`/places/${id}`} isAway={isAway} />
          ))}
        </span>
      ),
    },
    {
      key: 'taken',
      head: say('By daylight'),
      width: '7rem',
      phone: 'hide',
      cell: () => <span className={s.blank}> </span>,
    },
  ]
  return (
    <Section
      title={say('List for the floss toss')}
      id="toss"
      note={say('In walking order. 1 is charted, 1a and on might stand in for it. Print it and write down what daylight says.')}
    >
      {inOrder.length === 0 ? (
        <p className="quiet">{say('Nothing of it is held with a place, so there is nothing to pull.')}</p>
      ) : (
        <Ledger
          caption={say('What to pull and lay on the cloth')}
          columns={columns}
          rows={inOrder}
          rowKey={({ number }) => number}
          isTight
        />
      )}
    </Section>
  )
}
