import type { Metadata } from 'next'
import { formatThreadLength } from '#language/lengths'
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

export const metadata: Metadata = { title: 'Which length is cheaper' }

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
        title="Which length is cheaper"
        crumbs={[{ label: 'Buy', href: '/buy' }, { label: 'Which length is cheaper' }]}
        byline="Two put-ups of one thread against what is needed: two of 5 yd, or one of 8 m?"
      />
      <BuyParts current="/buy/compare" />
      <form className={s.compare} action="/buy/compare" aria-label="Compare two lengths">
        <TextField
          name="need"
          label="Needed"
          defaultValue={filled.need}
          error={wrong.need}
          placeholder={`7 ${unit}`}
          width="half"
        />
        <FieldRow>
          <TextField
            name="firstLength"
            label="One is"
            defaultValue={filled.firstLength}
            error={wrong.firstLength}
            placeholder="5 yd"
          />
          <TextField
            name="firstPrice"
            label={`and costs, in ${settings.currency || 'money'}`}
            defaultValue={filled.firstPrice}
            error={wrong.firstPrice}
            placeholder="2.60"
          />
        </FieldRow>
        <FieldRow>
          <TextField
            name="secondLength"
            label="The other is"
            defaultValue={filled.secondLength}
            error={wrong.secondLength}
            placeholder="8 m"
          />
          <TextField
            name="secondPrice"
            label={`and costs, in ${settings.currency || 'money'}`}
            defaultValue={filled.secondPrice}
            error={wrong.secondPrice}
            placeholder="1.50"
          />
        </FieldRow>
        <div>
          <Button kind="first" type="submit">
            Compare
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
      { label: 'How many', how: needed === count ? undefined : `${needed}, rounded up`, figure: count },
      { label: 'They hold', how: `${count} × ${names[at]}`, figure: formatThreadLength(count * offer.putUpStrandTenths, unit) },
      {
        label: 'They cost',
        how: `${count} × ${priceWords(offer.priceMinor, currency)}`,
        figure: priceWords(singles[at]?.priceMinor ?? 0, currency),
        kind: 'end',
      },
      {
        label: `A ${unit === 'm' ? 'metre' : 'yard'} costs`,
        how: `${priceWords(offer.priceMinor, currency)} ÷ ${formatThreadLength(offer.putUpStrandTenths, unit)}`,
        figure: priceWords((offer.priceMinor * perUnit) / offer.putUpStrandTenths, currency),
      },
    ]
  }
  const isMixed = best.putUps.every((count) => count > 0) && best.priceMinor < Math.min(first, second)
  const countOf = (at: 0 | 1) => `${singles[at]?.putUps[at] ?? 0} of ${names[at]}`
  return (
    <Section title="The answer">
      <p>
        {winner === null ? (
          <strong>
            {countOf(0)} or {countOf(1)}: they cost the same.
          </strong>
        ) : (
          <strong>
            {countOf(winner)}: {priceWords(Math.abs(first - second), currency)} less than {countOf(winner === 0 ? 1 : 0)}.
          </strong>
        )}
        {isMixed &&
          ` ${best.putUps[0]} of ${names[0]} with ${best.putUps[1]} of ${names[1]} would cost ${priceWords(best.priceMinor, currency)}, but two put-ups are seldom of one dye lot.`}
      </p>
      <Sums>
        <Sum title={names[0]} rows={rowsOf(0)} />
        <Sum title={names[1]} rows={rowsOf(1)} />
      </Sums>
    </Section>
  )
}
