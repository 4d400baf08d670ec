import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type WhatIfQuery, whatIfHref } from '#lib/coverage/what-if-query'
import type { Answers } from '#lib/db/answers/answers'
import type { Bag } from '#lib/db/coverage/what-if'
import { hoopWords } from '#trade/hoop'
import { ThreadName } from '#trade/thread-bar'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { CheckField, NumberField, TextField } from '#ui/field'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { plural } from '#words/amounts'
import { hexesOf } from '#words/colour'
import { threadName } from '#words/thread'
import s from './what-if.module.css'
import { bagWords } from './words'

/** More are not looked through by eye; a project's own page leads here with its bag chosen. */
const mostBagsShown = 40

type SupposeFormProps = {
  answers: Answers
  query: WhatIfQuery
  bags: readonly Bag[]
  /** Threads found by the words asked, to be added. */
  foundIds: readonly string[]
}

/** What is supposed: threads bought, bags unpacked. All of it lives in the address. */
export function SupposeForm({ answers, query, bags, foundIds }: SupposeFormProps) {
  const { world } = answers
  const known = (threadId: string) => {
    const thread = world.threads.get(threadId)
    const line = world.lines.get(thread?.lineId ?? '')
    return thread && line ? { thread, line } : null
  }
  const nameOf = (threadId: string) => {
    const found = known(threadId)
    return found ? threadName({ makerName: found.line.makerName, code: found.thread.code, name: found.thread.name }) : ''
  }
  const rows = [
    ...query.buy.map(({ threadId, putUps, lot }) => ({ threadId, text: String(putUps), lot, error: undefined })),
    ...query.wrong.map((one) => ({ ...one, error: say('How many is a whole number from 1 to 10,000.') })),
  ].filter(({ threadId }) => known(threadId) !== null)
  const chosen = new Set(query.unpack)
  const shown = [
    ...bags.filter(({ projectId }) => chosen.has(projectId)),
    ...bags.filter(({ projectId }) => !chosen.has(projectId)),
  ]
  const without = (threadId: string): string =>
    whatIfHref({ buy: query.buy.filter((one) => one.threadId !== threadId), unpack: query.unpack })
  return (
    <div className="no-print">
      <Section title={say('Suppose')} id="suppose">
        <form action="/what-if" aria-label={say('What is supposed')}>
          <div className={s.columns}>
            <div>
              <h3>{say('Bought')}</h3>
              {rows.length === 0 && <p className="quiet">{say('No thread is supposed bought.')}</p>}
              <ul aria-label={say('Threads supposed bought')}>
                {rows.map(({ threadId, text, lot, error }) => {
                  const found = known(threadId)
                  if (!found) return null
                  const { thread, line } = found
                  return (
                    <li key={threadId} className={s.bought}>
                      <ThreadName
                        maker={line.makerName}
                        code={thread.code}
                        name={thread.name ?? undefined}
                        note={line.name || undefined}
                        hexes={hexesOf(thread.lab)}
                        dye={line.dyeing === 'solid' ? 'solid' : 'overdyed'}
                        href={`/threads/${threadId}`}
                      />
                      <NumberField
                        name={`buy.${threadId}`}
                        label={
                          <>
                            <span className="vh">{nameOf(threadId)}, </span>
                            {plural(line.putUpWord)}
                          </>
                        }
                        isWhole
                        defaultValue={text}
                        error={error}
                      />
                      <TextField
                        name={`lot.${threadId}`}
                        label={sayParts('{nameOf}lot', { nameOf: <span className="vh">{nameOf(threadId)}, </span> })}
                        defaultValue={lot ?? ''}
                        placeholder={say('any')}
                        maxLength={100}
                      />
                      <Link className={s.off} href={without(threadId)}>
                        {sayParts('Take off{nameOf}', { nameOf: <span className="vh"> {nameOf(threadId)}</span> })}
                      </Link>
                    </li>
                  )
                })}
              </ul>
              <div className={s.add}>
                <TextField
                  name="q"
                  label={say('Add a thread')}
                  type="search"
                  hint={say('Maker and code, or a name.')}
                  placeholder={say('Larkholm 0017')}
                  defaultValue={query.q}
                  maxLength={200}
                />
              </div>
              {query.q !== '' && foundIds.length === 0 && (
                <p>
                  {sayParts('No thread is called {q}. Give maker and exact code, such as Larkholm 0017, or a part of its name.', {
                    q: query.q,
                  })}
                </p>
              )}
              {foundIds.length > 0 && (
                <ul className={s.found} aria-label={say('Threads found')}>
                  {foundIds.map((threadId) => (
                    <li key={threadId}>
                      <span>{nameOf(threadId)}</span>
                      <LinkButton
                        href={whatIfHref({
                          buy: [...query.buy.filter((one) => one.threadId !== threadId), { threadId, putUps: 1, lot: null }],
                          unpack: query.unpack,
                        })}
                      >
                        {sayParts('Add{nameOf}', { nameOf: <span className="vh"> {nameOf(threadId)}</span> })}
                      </LinkButton>
                    </li>
                  ))}
                </ul>
              )}
            </div>
            <fieldset>
              <legend>
                <h3>{say('Unpacked')}</h3>
              </legend>
              {bags.length === 0 ? (
                <p className="quiet">{say('No project has a bag, or anything promised to it.')}</p>
              ) : (
                shown.slice(0, Math.max(mostBagsShown, chosen.size)).map((bag) => (
                  <CheckField
                    key={bag.projectId}
                    name="unpack"
                    value={bag.projectId}
                    defaultChecked={chosen.has(bag.projectId)}
                    label={
                      <>
                        <span className="title">{bag.title}</span>
                        <small>
                          {[hoopWords[bag.status], bag.forWhom && say('for {forWhom}', { forWhom: bag.forWhom }), bagWords(bag)]
                            .filter(Boolean)
                            .join(', ')}
                        </small>
                      </>
                    }
                  />
                ))
              )}
              {shown.length > mostBagsShown && (
                <p className="quiet">
                  {say('And {shown, number} more: each project’s own page leads here with its bag chosen.', {
                    shown: shown.length - mostBagsShown,
                  })}
                </p>
              )}
            </fieldset>
          </div>
          <div className={s.send}>
            <ButtonRow>
              <Button kind="first" type="submit">
                {say('See what it would open')}
              </Button>
              {rows.length + query.unpack.length > 0 && (
                <LinkButton kind="quiet" href="/what-if">
                  {say('Start again')}
                </LinkButton>
              )}
            </ButtonRow>
          </div>
        </form>
      </Section>
    </div>
  )
}
