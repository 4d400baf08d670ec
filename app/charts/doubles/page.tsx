import type { Metadata } from 'next'
import { z } from 'zod'
import { say } from '#language/say'
import { listMergings } from '#lib/db/merging/merging'
import { type DoubleCard, listChartDoubles, listDesignerDoubles } from '#lib/db/merging/suggested'
import { listToldApart } from '#lib/db/merging/tell-apart'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { Section } from '#ui/section'
import { Ways } from '#ui/ways'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { midSentence } from '#words/capital'
import { kindWords } from '../../_charts/words'
import { Mergings } from '../../_doubles/merging-view'
import { MergeNamed, Name, NotTheSame, Pair, Pairs, Said, ToldApart } from '../../_doubles/pair'
import { doubtWords, nameReasonWords, reasonWords } from '../../_doubles/words'

export const generateMetadata = (): Metadata => ({ title: say('Doubles among charts') })

const pairsAPage = 20
const mergingsShown = 20
const pageSchema = z.object({ page: z.coerce.number().int().min(1).max(10_000).catch(1) })

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ChartDoublesPage({ searchParams }: Props) {
  const { page: asked } = pageSchema.parse(await searchParams)
  const { ownerIds, ownerName } = await getViewer()
  const [pairs, designers, merged, apart] = await Promise.all([
    listChartDoubles(ownerIds),
    listDesignerDoubles(),
    listMergings(['chart', 'designer'], mergingsShown),
    listToldApart(['chart', 'designer'], mergingsShown),
  ])
  const pages = Math.max(1, Math.ceil(pairs.length / pairsAPage))
  const page = Math.min(asked, pages)
  const from = (page - 1) * pairsAPage
  const shown = pairs.slice(from, from + pairsAPage)
  return (
    <>
      <PageHead
        title={say('Doubles')}
        crumbs={[{ label: say('Charts'), href: '/charts' }, { label: say('Doubles') }]}
        byline={say(
          'Charts of {ownerName} that may be one chart entered twice, and designers spelt two ways. Nothing is merged unless you say so, and each merge can be taken back.',
          { ownerName },
        )}
      />
      <Ways
        items={[
          { href: '#designers', label: say('Designers') },
          { href: '/threads/doubles', label: say('Threads and makers') },
          { href: '/charts/had', label: say('Have I bought this before?') },
          { href: '/lists/doubles', label: say('Copies to spare') },
        ]}
      />
      <Section
        title={say('Charts')}
        id="charts"
        note={pairs.length > 0 && say('{pairs, plural, one {# pair} other {# pairs}}, the surest first', { pairs: pairs.length })}
      >
        {pairs.length === 0 ? (
          <Empty title={say('No two charts look like one')} actions={<LinkButton href="/charts">{say('All charts')}</LinkButton>}>
            {say(
              'Charts are held against each other by title, designer, size, threads, cover and file. What you said is not the same is left out. Two you know to be one can be merged from the page of either.',
            )}
          </Empty>
        ) : (
          <>
            <Pairs>
              {shown.map(({ pair, first, second }) => (
                <Pair
                  key={`${first.id} ${second.id}`}
                  first={<Card card={first} />}
                  second={<Card card={second} />}
                  reasons={pair.reasons.map(reasonWords)}
                  doubts={pair.doubts.map(doubtWords)}
                  actions={
                    <>
                      <LinkButton kind="first" href={`/charts/doubles/merge?kept=${first.id}&gone=${second.id}`}>
                        {say('Look at both')}
                      </LinkButton>
                      <NotTheSame
                        noun="chart"
                        firstId={first.id}
                        secondId={second.id}
                        names={`${first.title}, ${second.title}`}
                      />
                    </>
                  }
                />
              ))}
            </Pairs>
            {pages > 1 && (
              <Pager
                page={page}
                pages={pages}
                hrefForPage={(to) => `/charts/doubles?page=${to}`}
                shown={say('{from} to {from2} of {pairs, plural, one {# pair} other {# pairs}}', {
                  from: from + 1,
                  from2: from + shown.length,
                  pairs: pairs.length,
                })}
              />
            )}
          </>
        )}
      </Section>
      <Section title={say('Designers')} id="designers" note={designers.length > 0 && counted(designers.length, 'pair')}>
        {designers.length === 0 ? (
          <Empty title={say('No designer is spelt two ways')}>
            {say('When two names are nearly one, they stand here, with how many charts each has.')}
          </Empty>
        ) : (
          <Pairs>
            {designers.map(({ first, second, reason }) => (
              <Pair
                key={`${first.id} ${second.id}`}
                first={<Designer {...first} />}
                second={<Designer {...second} />}
                reasons={[nameReasonWords[reason]]}
                actions={
                  <>
                    <MergeNamed
                      noun="designer"
                      first={{ ...first, note: counted(first.count, 'chart') }}
                      second={{ ...second, note: counted(second.count, 'chart') }}
                    >
                      <p>
                        {say(
                          'All charts are the kept one’s then. The other spelling is remembered: typed later, or brought in by a file, it means the kept one.',
                        )}
                      </p>
                    </MergeNamed>
                    <NotTheSame noun="designer" firstId={first.id} secondId={second.id} names={`${first.name}, ${second.name}`} />
                  </>
                }
              />
            ))}
          </Pairs>
        )}
      </Section>
      <ToldApart pairs={apart} />
      <Mergings merged={merged} base="/charts/doubles" />
    </>
  )
}

function Card({ card }: { card: DoubleCard }) {
  const size = card.sizes.map(({ width, height }) => `${width} × ${height}`)
  const facts = [
    midSentence(kindWords[card.kind]),
    card.edition,
    card.designCount > 1 && counted(card.designCount, 'design'),
    size.length > 0 && size.length < 4 && say('{size} stitches', { size: listed(size) }),
  ].filter(Boolean)
  return (
    <>
      <Name>
        <Link href={`/charts/${card.id}`} className="title">
          {card.title}
        </Link>
      </Name>
      <Said>{card.designers.length > 0 ? listed(card.designers) : say('no designer on record')}</Said>
      <Said>{facts.join(', ')}</Said>
      <Said>
        {counted(card.copies, 'copy')},{' '}
        {card.placeLabel ? say('in {placeLabel}', { placeLabel: card.placeLabel }) : say('no place yet')}
      </Said>
      {card.alsoCalled.length > 0 && <Said>{say('also called {alsoCalled}', { alsoCalled: listed(card.alsoCalled) })}</Said>}
    </>
  )
}

function Designer({ id, name, count }: { id: string; name: string; count: number }) {
  return (
    <>
      <Name>
        <Link href={`/charts?designer=${id}&owner=any`}>{name}</Link>
      </Name>
      <Said>{counted(count, 'chart')}</Said>
    </>
  )
}
