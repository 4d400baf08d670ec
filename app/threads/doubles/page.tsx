import type { Metadata } from 'next'
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

export const metadata: Metadata = { title: 'Doubles among threads' }

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
        title="Doubles"
        crumbs={[{ label: 'Threads', href: '/threads' }, { label: 'Doubles' }]}
        byline="Threads that may be one entered twice, and makers and lines spelt two ways. Nothing is merged unless you say so, and each merge can be taken back."
      />
      <Ways
        items={[
          { href: '#makers', label: 'Makers and lines' },
          { href: '/charts/doubles', label: 'Charts and designers' },
        ]}
      />
      <Section title="Threads" id="threads" note={pairs.length > 0 && `${counted(pairs.length, 'pair')}, the surest first`}>
        {pairs.length === 0 ? (
          <Empty title="No two threads look like one" actions={<LinkButton href="/threads">All threads</LinkButton>}>
            A code with its zeros is its own: 0017 is not 17. Where a line has both, and no name or colour tells them apart, they
            stand here.
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
                        The kept one has all stock then, with what is promised of it, and stands in every key, order and kit that
                        names the other. No length changes. The other code is remembered, and finds the kept one.
                      </p>
                    </MergeNamed>
                    <NotTheSame noun="thread" firstId={first.id} secondId={second.id} names={`${first.code}, ${second.code}`} />
                  </>
                }
              />
            ))}
          </Pairs>
        )}
        {pairs.length > pairsShown && <p>The first {pairsShown} are shown; the others follow as these are settled.</p>}
      </Section>
      <Section title="Makers and lines" id="makers" note={spellings.length > 0 && counted(spellings.length, 'pair')}>
        {spellings.length === 0 ? (
          <Empty title="No maker or line is spelt two ways">When two names are nearly one, they stand here.</Empty>
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
                        {noun === 'maker'
                          ? 'Lines of the same name become one, thread by thread; the others go over.'
                          : 'Its threads go over one by one; a code both have is one thread.'}{' '}
                        The kept one says what a put-up is and whether lots matter; put-ups on record keep their length.
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
  `${batches === 0 ? 'no stock' : counted(batches, 'batch')}, ${lists === 0 ? 'in no thread list' : `in ${counted(lists, 'thread list')}`}`

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
      <Said>{lineName || 'no line named'}</Said>
      <Said>{heldWords(thread)}</Said>
    </>
  )
}

function Spelt({ id, name, count, makerName, noun }: NamedCount & { makerName: string | null; noun: 'maker' | 'line' }) {
  return (
    <>
      <Name>
        <Link href={noun === 'maker' ? `/threads?maker=${id}` : `/threads?line=${id}`}>{name || 'no name'}</Link>
      </Name>
      <Said>
        {noun === 'maker' ? 'maker' : `line of ${makerName}`}, {counted(count, 'thread')}
      </Said>
    </>
  )
}
