import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type Outcome, outcomes } from '#lib/coverage/what-if-outcome'
import { parseWhatIfQuery, type WhatIfQuery, whatIfHref } from '#lib/coverage/what-if-query'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { askWhatIf, listBags } from '#lib/db/coverage/what-if'
import { listThreadsCalled } from '#lib/db/thread/find-thread'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { threadName } from '#words/thread'
import { OutcomeSection } from './outcome-section'
import { SupposeForm } from './suppose-form'
import s from './what-if.module.css'
import { answerWords, notSupposedWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('What if') })

/** As many threads as are offered where several may be meant. */
const mostFound = 8

type WhatIfPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function WhatIfPage({ searchParams }: WhatIfPageProps) {
  const query = parseWhatIfQuery(await searchParams)
  const [{ ownerIds, ownerName, owners }, answers] = await Promise.all([getViewer(), getAnswers()])
  const found = query.q === '' ? [] : await findThreads(answers, query)
  const [only] = found
  if (only !== undefined && found.length === 1 && query.wrong.length === 0) {
    const isChosen = query.buy.some(({ threadId }) => threadId === only)
    const added = isChosen ? [] : [{ threadId: only, putUps: 1, lot: null }]
    redirect(whatIfHref({ buy: [...query.buy, ...added], unpack: query.unpack }))
  }
  const bags = listBags(answers, ownerIds)
  const { outcome, notSupposed } = askWhatIf(answers, { buy: query.buy, unpackProjectIds: query.unpack, ownerIds })
  const counts = Object.fromEntries(outcomes.map((kind) => [kind, outcome[kind].length])) as Record<Outcome, number>
  const isAsked = query.buy.length + query.unpack.length > notSupposed.length
  const unpacked = bags.filter(({ projectId }) => query.unpack.includes(projectId))
  const shown =
    query.show !== null && outcome[query.show].length > 0 ? [query.show] : outcomes.filter((kind) => kind !== 'inPart')
  const crumbs = [{ label: say('Charts'), href: '/charts' }, { label: say('What if') }]
  if (owners.length === 0 || answers.catalogue.size === 0) {
    return (
      <>
        <PageHead title={say('What if')} crumbs={crumbs} />
        <Empty
          title={owners.length === 0 ? say('Nobody owns anything yet') : say('No charts yet')}
          actions={
            <LinkButton kind="first" href={owners.length === 0 ? '/settings' : '/bring-in'}>
              {owners.length === 0 ? say('To Settings') : say('Bring in a spreadsheet')}
            </LinkButton>
          }
        >
          {say('Once there are charts and stock, this says which designs some thread bought or a bag unpacked would open.')}
        </Empty>
      </>
    )
  }
  return (
    <>
      <PageHead
        title={say('What if')}
        crumbs={crumbs}
        byline={say(
          'Suppose thread bought, or a bag unpacked, and see which charts it would open, from the stock of {ownerName}. Nothing is written: stock, promises and bags stay as they are.',
          { ownerName },
        )}
      >
        {isAsked && (
          <p className={s.answer}>
            <b>{answerWords(counts)}</b>
          </p>
        )}
      </PageHead>
      {isAsked && (
        <PrintLine>
          {sayParts('If {listed}; {ownerName}', {
            listed: listed([
              ...boughtWords(answers, query),
              ...unpacked.map(({ title }) => say('the bag of {title} unpacked', { title })),
            ]),
            ownerName,
          })}
        </PrintLine>
      )}
      {notSupposed.map((one) => (
        <Notice key={`${one.kind} ${one.id}`} kind="caution" title={notSupposedWords(one)} />
      ))}
      <SupposeForm answers={answers} query={query} bags={bags} foundIds={found} />
      {!isAsked ? (
        <Empty title={say('Nothing is supposed yet')}>
          {say(
            'Add a thread, or tick a bag, and the designs that would stand otherwise are listed here: those it would open, those it would bring nearer, and those that would then want more.',
          )}
        </Empty>
      ) : (
        shown
          .filter((kind) => outcome[kind].length > 0)
          .map((kind) => (
            <OutcomeSection
              key={kind}
              answers={answers}
              outcome={kind}
              designs={outcome[kind]}
              query={query}
              unpackedDesignIds={new Set(unpacked.map(({ designId }) => designId))}
            />
          ))
      )}
      {isAsked && counts.inPart > 0 && !shown.includes('inPart') && (
        <p className={s.rest}>
          {sayParts('{counted} would stand otherwise in a part only, with as much to buy as now.', {
            counted: (
              <Link href={whatIfHref({ buy: query.buy, unpack: query.unpack, show: 'inPart' })}>
                {counted(counts.inPart, 'design')}
              </Link>
            ),
          })}
        </p>
      )}
    </>
  )
}

/** The threads called by a text, else those found by its words. */
async function findThreads(answers: Answers, query: WhatIfQuery): Promise<string[]> {
  const called = await listThreadsCalled(query.q)
  const ids =
    called.length > 0
      ? called.map(({ id }) => id)
      : answers.search.search(query.q, { limit: mostFound, noun: 'thread' }).hits.map(({ id }) => id.slice('thread:'.length))
  return ids.filter((id) => answers.world.threads.has(id)).slice(0, mostFound)
}

/** "2 skeins of Larkholm 0017 Straw bought", for each thread. */
function boughtWords({ world }: Answers, query: WhatIfQuery): string[] {
  return query.buy.flatMap(({ threadId, putUps, lot }) => {
    const thread = world.threads.get(threadId)
    const line = world.lines.get(thread?.lineId ?? '')
    if (!thread || !line) return []
    const name = threadName({ makerName: line.makerName, code: thread.code, name: thread.name })
    return [
      say('{counted} of {name}{rest} bought', {
        counted: counted(putUps, line.putUpWord),
        name,
        rest: lot === null ? '' : say(', lot {lot},', { lot }),
      }),
    ]
  })
}
