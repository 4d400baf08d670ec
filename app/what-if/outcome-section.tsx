import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { WhatIf } from '#lib/coverage/engine'
import type { Outcome } from '#lib/coverage/what-if-outcome'
import { type WhatIfQuery, whatIfHref } from '#lib/coverage/what-if-query'
import type { Answers } from '#lib/db/answers/answers'
import { PlaceLabel } from '#trade/place-label'
import { TrayWord } from '#trade/tray'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Pager } from '#ui/pager'
import { Section } from '#ui/section'
import { counted, listed } from '#words/amounts'
import s from './what-if.module.css'
import { outcomeNotes, outcomeTitles, stateWords } from './words'

/** So many of each outcome while all are shown, and so many to a page where one is. */
const firstShown = 12
const perPage = 40

type OutcomeSectionProps = {
  answers: Answers
  outcome: Outcome
  designs: readonly WhatIf[]
  query: WhatIfQuery
  /** Designs whose own bag is supposed unpacked. */
  unpackedDesignIds: ReadonlySet<string>
}

/** The designs of which the same becomes, each as it stands and as it would. */
export function OutcomeSection({ answers, outcome, designs, query, unpackedDesignIds }: OutcomeSectionProps) {
  const { world } = answers
  const isAlone = query.show === outcome
  const pages = Math.max(1, Math.ceil(designs.length / perPage))
  const page = Math.min(query.page, pages)
  const first = isAlone ? (page - 1) * perPage : 0
  const rows = designs.slice(first, isAlone ? first + perPage : firstShown)
  const number = (count: number) => numberText(count)
  return (
    <Section
      title={outcomeTitles[outcome]}
      id={outcome}
      note={[counted(designs.length, 'design'), outcomeNotes[outcome]].filter(Boolean).join('. ')}
      actions={
        isAlone ? <Link href={whatIfHref({ buy: query.buy, unpack: query.unpack })}>{say('Show all outcomes')}</Link> : undefined
      }
    >
      <Ledger
        caption={outcomeTitles[outcome]}
        rows={rows}
        rowKey={({ designId }) => designId}
        rowHref={({ designId }) => `/designs/${designId}`}
        columns={[
          {
            key: 'title',
            head: say('Chart'),
            phone: 'lead',
            cell: ({ designId }) => {
              const facts = world.designs.get(designId)
              return (
                <>
                  <span className="title">{facts?.design.title}</span>
                  <span className={s.by}>
                    {[
                      listed((facts?.designerIds ?? []).map((id) => world.designers.get(id) ?? '')),
                      facts && facts.chartTitle !== facts.design.title && say('in {place}', { place: facts.chartTitle }),
                      unpackedDesignIds.has(designId) && say('its own bag is the one unpacked'),
                    ]
                      .filter(Boolean)
                      .join(', ')}
                  </span>
                </>
              )
            },
          },
          {
            key: 'now',
            head: say('Now'),
            width: '15rem',
            phone: 'labelled',
            cell: ({ before }) => stateWords(before).word,
          },
          {
            key: 'then',
            head: say('Then'),
            width: '15rem',
            phone: 'line',
            cell: ({ after }) => <TrayWord {...stateWords(after)} />,
          },
          {
            key: 'place',
            head: say('Place'),
            width: '9rem',
            isAtEnd: true,
            phone: 'side',
            cell: ({ designId }) => {
              const facts = world.designs.get(designId)
              const home = world.places.get(facts?.homePlaceId ?? '')
              const current = world.places.get(facts?.currentPlaceId ?? facts?.homePlaceId ?? '')
              if (!current) return <span className="quiet">{say('no place yet')}</span>
              return (
                <PlaceLabel
                  label={current.label}
                  href={`/places/${current.id}`}
                  livesIn={home && home.id !== current.id ? home.label : undefined}
                />
              )
            },
          },
        ]}
      />
      {isAlone ? (
        <Pager
          page={page}
          pages={pages}
          hrefForPage={(other) => whatIfHref({ buy: query.buy, unpack: query.unpack, show: outcome, page: other })}
          shown={say('{number} to {number2} of {number3}', {
            number: number(first + 1),
            number2: number(first + rows.length),
            number3: number(designs.length),
          })}
        />
      ) : (
        designs.length > rows.length && (
          <p>
            <Link href={whatIfHref({ buy: query.buy, unpack: query.unpack, show: outcome })}>
              {sayParts('All {number}<span> that {replace}</span>', {
                number: number(designs.length),
                span: (words) => <span className="vh">{words}</span>,
                replace: outcomeTitles[outcome].replace(/^W/, 'w'),
              })}
            </Link>
          </p>
        )
      )}
    </Section>
  )
}
