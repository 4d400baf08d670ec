import type { Metadata } from 'next'
import { formatThreadLength } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readBoughtThreads } from '#lib/db/order/bought-threads'
import { findThread } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { Button } from '#ui/button'
import { FieldRow, TextField } from '#ui/field'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { getViewer } from '#viewer/viewer'
import { threadLength } from '#words/amounts'
import { priceWords } from '#words/price'
import s from '../buy.module.css'
import { BuyParts } from '../buy-parts'
import { type CompareTexts, type Comparison, readComparison, readTexts } from './read-comparison'

export const generateMetadata = (): Metadata => ({ title: say('Which length is cheaper') })

type ComparePageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ComparePage({ searchParams }: ComparePageProps) {
  const params = await searchParams
  const { settings, ownerIds } = await getViewer()
  const unit = settings.threadUnit
  const texts = readTexts(params)
  const comparison = readComparison(texts, unit)
  const wrong = comparison !== null && !('best' in comparison) ? comparison : {}
  const filled = comparison === null && typeof params.thread === 'string' ? await fill(params.thread, ownerIds, unit) : texts
  return (
    <>
      <PageHead
        title={say('Which length is cheaper')}
        crumbs={[{ label: say('Buy'), href: '/buy' }, { label: say('Which length is cheaper') }]}
        byline={say('Two put-ups of one thread against what is needed: two of 5 yd, or one of 8 m?')}
      />
      <BuyParts current="/buy/compare" />
      <form className={s.compare} action="/buy/compare" aria-label={say('Compare two lengths')}>
        <TextField
          name="need"
          label={say('Needed')}
          defaultValue={filled.need}
          error={wrong.need}
          placeholder={`7 ${unit}`}
          width="half"
        />
        <FieldRow>
          <TextField
            name="firstLength"
            label={say('One is')}
            defaultValue={filled.firstLength}
            error={wrong.firstLength}
            placeholder={say('5 yd')}
          />
          <TextField
            name="firstPrice"
            label={say('and costs, in {currency}', { currency: settings.currency || say('money') })}
            defaultValue={filled.firstPrice}
            error={wrong.firstPrice}
            placeholder="2.60"
          />
        </FieldRow>
        <FieldRow>
          <TextField
            name="secondLength"
            label={say('The other is')}
            defaultValue={filled.secondLength}
            error={wrong.secondLength}
            placeholder="8 m"
          />
          <TextField
            name="secondPrice"
            label={say('and costs, in {currency}', { currency: settings.currency || say('money') })}
            defaultValue={filled.secondPrice}
            error={wrong.secondPrice}
            placeholder="1.50"
          />
        </FieldRow>
        <div>
          <Button kind="first" type="submit">
            {say('Compare')}
          </Button>
        </div>
      </form>
      {comparison !== null && 'best' in comparison && (
        <Answer comparison={comparison} texts={texts} unit={unit} currency={settings.currency} />
      )}
    </>
  )
}

/** What is on record of a thread: the put-up and price of its line, and another length it is held in. */
async function fill(threadId: string, ownerIds: readonly string[], unit: ThreadLengthUnit): Promise<CompareTexts> {
  const [thread, held] = await Promise.all([
    readBoughtThreads({ id: threadId, goneAt: null }).then((found) => found.get(threadId)),
    findThread(threadId, { ownerIds }),
  ])
  if (!thread) return readTexts({})
  const { line, priceMinor } = thread
  const other = held?.batches.find(({ batch }) => batch.putUpStrandTenths !== line.putUpStrandTenths)?.batch
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  return {
    need: '',
    firstLength: length(line.putUpStrandTenths),
    firstPrice: priceMinor === null ? '' : priceWords(priceMinor, ''),
    secondLength: other ? length(other.putUpStrandTenths) : '',
    secondPrice: '',
  }
}

type AnswerProps = { comparison: Comparison; texts: CompareTexts; unit: ThreadLengthUnit; currency: string }

function Answer({ comparison, texts, unit, currency }: AnswerProps) {
  const { needTenths, offers, singles, best } = comparison
  const names = [texts.firstLength.trim(), texts.secondLength.trim()]
  const perUnit = unit === 'm' ? 10_000 : 9_144
  const [first, second] = singles.map(({ priceMinor }) => priceMinor) as [number, number]
  const winner = first === second ? null : first < second ? 0 : 1
  const rowsOf = (at: 0 | 1): SumRow[] => {
    const offer = offers[at]
    const count = singles[at]?.putUps[at] ?? 0
    const needed = Number((needTenths / offer.putUpStrandTenths).toFixed(2))
    return [
      { label: say('How many'), how: needed === count ? undefined : say('{needed}, rounded up', { needed }), figure: count },
      {
        label: say('They hold'),
        how: `${count} × ${names[at]}`,
        figure: formatThreadLength(count * offer.putUpStrandTenths, unit),
      },
      {
        label: say('They cost'),
        how: `${count} × ${priceWords(offer.priceMinor, currency)}`,
        figure: priceWords(singles[at]?.priceMinor ?? 0, currency),
        kind: 'end',
      },
      {
        label: say('A {isM, select, yes {metre} other {yard}} costs', { isM: unit === 'm' }),
        how: `${priceWords(offer.priceMinor, currency)} ÷ ${formatThreadLength(offer.putUpStrandTenths, unit)}`,
        figure: priceWords((offer.priceMinor * perUnit) / offer.putUpStrandTenths, currency),
      },
    ]
  }
  const isMixed = best.putUps.every((count) => count > 0) && best.priceMinor < Math.min(first, second)
  const countOf = (at: 0 | 1) => say('{putUps} of {names}', { putUps: singles[at]?.putUps[at] ?? 0, names: names[at] })
  return (
    <Section title={say('The answer')}>
      <p>
        {winner === null ? (
          <strong>
            {sayParts('{countOf} or {countOf2}: they cost the same.', { countOf: countOf(0), countOf2: countOf(1) })}
          </strong>
        ) : (
          <strong>
            {sayParts('{countOf}: {price} less than {countOf2}.', {
              countOf: countOf(winner),
              price: priceWords(Math.abs(first - second), currency),
              countOf2: countOf(winner === 0 ? 1 : 0),
            })}
          </strong>
        )}
        {isMixed &&
          say(' {putUps} of {names} with {putUps2} of {names2} would cost {price}, but two put-ups are seldom of one dye lot.', {
            putUps: best.putUps[0],
            names: names[0],
            putUps2: best.putUps[1],
            names2: names[1],
            price: priceWords(best.priceMinor, currency),
          })}
      </p>
      <Sums>
        <Sum title={names[0]} rows={rowsOf(0)} />
        <Sum title={names[1]} rows={rowsOf(1)} />
      </Sums>
    </Section>
  )
}
