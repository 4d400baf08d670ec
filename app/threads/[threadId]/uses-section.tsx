import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThreadUses } from '#lib/db/thread/thread-uses'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { TrayWord } from '#trade/tray'
import { Link } from '#ui/link'
import { Pager } from '#ui/pager'
import { Section } from '#ui/section'
import { threadLength } from '#words/amounts'
import s from '../threads.module.css'
import t from './thread.module.css'

type UsesProps = {
  uses: ThreadUses
  strands: number
  unit: ThreadLengthUnit
  hrefForPage: (page: number) => string
}

/** The designs that use it, those that wait for it first. */
export function UsesSection({ uses, strands, unit, hrefForPage }: UsesProps) {
  const { designs, designCount, waitingCount, page, pages } = uses
  const length = (strandTenths: number) => threadLength(strandTenths, strands, unit)
  const note =
    designCount === 0
      ? undefined
      : waitingCount === 0
        ? say('{designCount, plural, one {# design} other {# designs}}; none waits for it.', { designCount })
        : say(
            '{designCount, plural, one {# design} other {# designs}}; {waitingCount} {waitingCount, plural, one {waits} other {wait}} for it, first.',
            { designCount, waitingCount },
          )
  return (
    <Section title={say('Designs that use it')} id="designs" note={note}>
      {designs.length === 0 ? (
        <p className="quiet">{say('No key names it yet.')}</p>
      ) : (
        <ul className={s.list}>
          {designs.map((design) => (
            <li key={design.id}>
              <span>
                <Link href={`/designs/${design.id}`} className="title">
                  {design.title}
                </Link>
                {design.chartTitle !== design.title && (
                  <small>{sayParts('in {chartTitle}', { chartTitle: <span className="title">{design.chartTitle}</span> })}</small>
                )}
              </span>
              <span>
                {design.lists.map((list) => (
                  <span key={list.id} className={t.line}>
                    <TrayWord
                      state={list.shortStrandTenths > 0 ? 'short' : 'enough'}
                      word={
                        list.shortStrandTenths > 0
                          ? say('waits for {length}', { length: length(list.shortStrandTenths) })
                          : say('enough is free')
                      }
                      note={[list.name, say('needs {length}', { length: length(list.needStrandTenths) })]
                        .filter(Boolean)
                        .join(', ')}
                    />
                  </span>
                ))}
              </span>
            </li>
          ))}
        </ul>
      )}
      {pages > 1 && (
        <Pager
          page={page}
          pages={pages}
          hrefForPage={hrefForPage}
          shown={say('{designs, plural, one {# design} other {# designs}} of {designCount, number}', {
            designs: designs.length,
            designCount,
          })}
        />
      )}
    </Section>
  )
}
