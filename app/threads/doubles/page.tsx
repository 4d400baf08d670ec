import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { labToHex } from '#lib/colour/convert'
import { listMergings } from '#lib/db/merging/merging'
import { listMakerDoubles, listThreadDoubles, type NamedCount, type ThreadCard } from '#lib/db/merging/suggested'
import { listToldApart } from '#lib/db/merging/tell-apart'
import { ThreadName } from '#trade/thread-bar'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Ways } from '#ui/ways'
import { counted } from '#words/amounts'
import { Mergings } from '../../_doubles/merging-view'
import { MergeNamed, Name, NotTheSame, Pair, Pairs, Said, ToldApart } from '../../_doubles/pair'
import { nameReasonWords, threadReasonWords } from '../../_doubles/words'

export const generateMetadata = (): Metadata => ({ title: say('Doubles among threads') })

const pairsShown = 60
const mergingsShown = 20

export default async function ThreadDoublesPage() {
  const [pairs, { makers, lines }, merged, apart] = await Promise.all([
    listThreadDoubles(),
    listMakerDoubles(),
    listMergings(['thread', 'line', 'maker'], mergingsShown),
    listToldApart(['thread', 'maker'], mergingsShown),
  ])
  const spellings = [
    ...makers.map((pair) => ({ ...pair, noun: 'maker' as const, makerName: null })),
    ...lines.map((pair) => ({ ...pair, noun: 'line' as const })),
  ]
  return (
    <>
      <PageHead
        title={say('Doubles')}
        crumbs={[{ label: say('Threads'), href: '/threads' }, { label: say('Doubles') }]}
        byline={say(
          'Threads that may be one entered twice, and makers and lines spelt two ways. Nothing is merged unless you say so, and each merge can be taken back.',
        )}
      />
      <Ways
        items={[
          { href: '#makers', label: say('Makers and lines') },
          { href: '/charts/doubles', label: say('Charts and designers') },
        ]}
      />
      <Section
        title={say('Threads')}
        id="threads"
        note={pairs.length > 0 && say('{pairs, plural, one {# pair} other {# pairs}}, the surest first', { pairs: pairs.length })}
      >
        {pairs.length === 0 ? (
          <Empty
            title={say('No two threads look like one')}
            actions={<LinkButton href="/threads">{say('All threads')}</LinkButton>}
          >
            {say(
              'A code with its zeros is its own: 0017 is not 17. Where a line has both, and no name or colour tells them apart, they stand here.',
            )}
          </Empty>
        ) : (
          <Pairs>
            {pairs.slice(0, pairsShown).map(({ first, second, reasons }) => (
              <Pair
                key={`${first.id} ${second.id}`}
                first={<Thread thread={first} />}
                second={<Thread thread={second} />}
                reasons={reasons.map((reason) => threadReasonWords[reason])}
                actions={
                  <>
                    <MergeNamed noun="thread" first={{ ...called(first) }} second={{ ...called(second) }}>
                      <p>
                        {say(
                          'The kept one has all stock then, with what is promised of it, and stands in every key, order and kit that names the other. No length changes. The other code is remembered, and finds the kept one.',
                        )}
                      </p>
                    </MergeNamed>
                    <NotTheSame noun="thread" firstId={first.id} secondId={second.id} names={`${first.code}, ${second.code}`} />
                  </>
                }
              />
            ))}
          </Pairs>
        )}
        {pairs.length > pairsShown && (
          <p>{sayParts('The first {pairsShown} are shown; the others follow as these are settled.', { pairsShown })}</p>
        )}
      </Section>
      <Section title={say('Makers and lines')} id="makers" note={spellings.length > 0 && counted(spellings.length, 'pair')}>
        {spellings.length === 0 ? (
          <Empty title={say('No maker or line is spelt two ways')}>
            {say('When two names are nearly one, they stand here.')}
          </Empty>
        ) : (
          <Pairs>
            {spellings.map(({ first, second, reason, noun, makerName }) => (
              <Pair
                key={`${first.id} ${second.id}`}
                first={<Spelt {...first} makerName={makerName} noun={noun} />}
                second={<Spelt {...second} makerName={makerName} noun={noun} />}
                reasons={[nameReasonWords[reason]]}
                actions={
                  <>
                    <MergeNamed
                      noun={noun}
                      first={{ ...first, note: counted(first.count, 'thread') }}
                      second={{ ...second, note: counted(second.count, 'thread') }}
                    >
                      <p>
                        {say(
                          '{isMaker, select, yes {Lines of the same name become one, thread by thread; the others go over.} other {Its threads go over one by one; a code both have is one thread.}} The kept one says what a put-up is and whether lots matter; put-ups on record keep their length.',
                          { isMaker: noun === 'maker' },
                        )}
                      </p>
                    </MergeNamed>
                    <NotTheSame noun="maker" firstId={first.id} secondId={second.id} names={`${first.name}, ${second.name}`} />
                  </>
                }
              />
            ))}
          </Pairs>
        )}
      </Section>
      <ToldApart pairs={apart} />
      <Mergings merged={merged} base="/threads/doubles" />
    </>
  )
}

const heldWords = ({ batches, lists }: ThreadCard): string =>
  say('{rest}, {rest2}', {
    rest: batches === 0 ? say('no stock') : counted(batches, 'batch'),
    rest2:
      lists === 0 ? say('in no thread list') : say('in {lists, plural, one {# thread list} other {# thread lists}}', { lists }),
  })

const called = (thread: ThreadCard) => ({
  id: thread.id,
  name: [thread.makerName, thread.code, thread.name].filter(Boolean).join(' '),
  note: heldWords(thread),
})

function Thread({ thread }: { thread: ThreadCard }) {
  const { id, makerName, lineName, code, name, lab } = thread
  return (
    <>
      <ThreadName
        maker={makerName}
        code={code}
        name={name}
        hexes={lab ? [labToHex(lab) as `#${string}`] : []}
        href={`/threads/${id}`}
      />
      <Said>{lineName || say('no line named')}</Said>
      <Said>{heldWords(thread)}</Said>
    </>
  )
}

function Spelt({ id, name, count, makerName, noun }: NamedCount & { makerName: string | null; noun: 'maker' | 'line' }) {
  return (
    <>
      <Name>
        <Link href={noun === 'maker' ? `/threads?maker=${id}` : `/threads?line=${id}`}>{name || say('no name')}</Link>
      </Name>
      <Said>
        {noun === 'maker' ? say('maker') : say('line of {makerName}', { makerName })}, {counted(count, 'thread')}
      </Said>
    </>
  )
}
