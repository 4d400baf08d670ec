import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { formatDate } from '#language/day'
import { type MergedField, mayTakeBoth } from '#lib/chart/doubles-merged'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findChart } from '#lib/db/chart/queries'
import { type ChartsPreview, type PreviewedChart, previewCharts } from '#lib/db/merging/preview-charts'
import { formatPrice } from '#lib/quantity/money'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { ChoiceField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { midSentence } from '#words/capital'
import { kindWords } from '../../../_charts/words'
import { mergeChartsAction } from '../../../_doubles/actions'
import { describeMergingRefusal, fieldWords } from '../../../_doubles/words'
import { FindBox } from '../../../_find/find-box'

export const metadata: Metadata = { title: 'Make one chart of two' }

const idSchema = z.string().min(1).max(64).optional().catch(undefined)
const querySchema = z.object({ kept: idSchema, gone: idSchema, q: z.string().trim().max(200).catch('') })

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

const crumbs = [{ label: 'Charts', href: '/charts' }, { label: 'Doubles', href: '/charts/doubles' }, { label: 'Make one of two' }]

export default async function MergeChartsPage({ searchParams }: Props) {
  const { kept: keptId, gone: goneId, q } = querySchema.parse(await searchParams)
  if (!goneId) notFound()
  if (!keptId) return <ChooseOther goneId={goneId} words={q} />
  const preview = await previewCharts({ keptId, goneId })
  if (!preview) notFound()
  const { settings } = await getViewer()
  const { kept, gone, refusal, differing, filled, united, moved } = preview
  const isToChoose = differing.length > 0 || united.some(({ differs }) => differs)
  const said = (chart: PreviewedChart, field: MergedField) => saidWords(chart, field, settings.currency)
  return (
    <>
      <PageHead
        title="Make one chart of two"
        crumbs={crumbs}
        byline={
          <>
            <span className="title">{gone.title}</span> goes up in <span className="title">{kept.title}</span>. Nothing of either
            is lost, and it can be taken back.
          </>
        }
        actions={<LinkButton href={`/charts/doubles/merge?kept=${gone.id}&gone=${kept.id}`}>Keep the other instead</LinkButton>}
      />
      {refusal && <Notice kind="caution" title={describeMergingRefusal(refusal)} />}
      <Section title="The two beside one another">
        <Ledger
          caption="What is on record of each"
          rows={factRows(preview, settings.currency)}
          rowKey={({ label }) => label}
          isTight
          columns={[
            { key: 'what', head: 'What', cell: ({ label }) => label, phone: 'lead', width: '12rem' },
            { key: 'kept', head: 'Is kept', cell: (row) => row.kept || '–', phone: 'labelled' },
            { key: 'gone', head: 'Goes up in it', cell: (row) => row.gone || '–', phone: 'labelled' },
          ]}
        />
      </Section>
      <Section title="What it will be">
        <Facts
          isStacked
          items={[
            { label: 'Copies', value: `${counted(preview.copies, 'copy')}, ${kept.copies} and ${gone.copies} added up` },
            ...(united.length > 0
              ? [
                  {
                    label: 'Become one',
                    value: listed(
                      united.map(({ otherTitle, keptTitle }) =>
                        otherTitle === keptTitle ? keptTitle : `${otherTitle} with ${keptTitle}`,
                      ),
                    ),
                  },
                ]
              : []),
            ...(moved.length > 0 ? [{ label: 'Go over as they are', value: listed(moved) }] : []),
            ...(filled.length > 0
              ? [{ label: 'Taken from the other', value: listed(filled.map((field) => midSentence(fieldWords[field]))) }]
              : []),
            ...(gone.projects > 0 ? [{ label: 'Projects and finishes', value: `${gone.projects} go along` }] : []),
            ...(gone.openLoans > 0 ? [{ label: 'Lent', value: 'what is lent stays on its loan' }] : []),
            { label: 'Found by', value: `both titles, ${kept.title} and ${gone.title}` },
          ]}
        />
      </Section>
      {!refusal && (
        <Section
          title={isToChoose ? 'Where they differ' : 'Make them one'}
          note={isToChoose && 'what the kept one says stands unless you choose'}
        >
          <Form
            action={mergeChartsAction}
            hidden={{
              keptId: kept.id,
              goneId: gone.id,
              keptVersion: String(kept.version),
              goneVersion: String(gone.version),
            }}
            submit="Make them one"
            pending="Merging"
            actions={<LinkButton href="/charts/doubles">Leave them</LinkButton>}
          >
            {differing.map(({ field, unasked }) => (
              <ChoiceField
                key={field}
                name={`take ${field}`}
                label={fieldWords[field]}
                defaultValue={unasked}
                options={[
                  { value: 'kept', label: said(kept, field) },
                  { value: 'other', label: said(gone, field) },
                  ...(mayTakeBoth(field) ? [{ value: 'both', label: 'both' }] : []),
                ]}
              />
            ))}
            {united
              .filter(({ differs }) => differs)
              .map(({ otherId, otherTitle, keptTitle }) => (
                <ChoiceField
                  key={otherId}
                  name={`facts ${otherId}`}
                  label={`Size, cloth and notes of ${keptTitle}, where the two differ`}
                  defaultValue="kept"
                  options={[
                    { value: 'kept', label: 'as the kept chart says' },
                    { value: 'other', label: `as ${otherTitle} says in the other` },
                  ]}
                />
              ))}
          </Form>
        </Section>
      )}
    </>
  )
}

function saidWords(chart: PreviewedChart, field: MergedField, currency: string): string {
  switch (field) {
    case 'title':
      return chart.title
    case 'designers':
      return listed(chart.designers)
    case 'kind':
      return midSentence(kindWords[chart.kind])
    case 'edition':
      return chart.edition ?? ''
    case 'parts':
      return chart.partsNeeded === 1 ? '' : `${chart.partsHeld} of ${chart.partsNeeded}`
    case 'place':
      return chart.homeLabel ?? chart.placeLabel ?? ''
    case 'boughtOn':
      return chart.boughtOn ? formatDate(chart.boughtOn) : ''
    case 'price':
      return chart.priceMinor === null ? '' : `${currency}${formatPrice(chart.priceMinor, null)}`
    case 'outOfPrint':
      return chart.isOutOfPrint ? 'out of print' : ''
    case 'cover':
      return chart.coverFile ? `the picture of ${chart.title}` : ''
    case 'note':
      return chart.note ?? ''
  }
}

function factRows({ kept, gone }: ChartsPreview, currency: string): { label: string; kept: string; gone: string }[] {
  const fields = Object.keys(fieldWords) as MergedField[]
  const rows = fields.map((field) => ({
    label: fieldWords[field],
    kept: saidWords(kept, field, currency),
    gone: saidWords(gone, field, currency),
  }))
  const more = [
    { label: 'Copies', kept: String(kept.copies), gone: String(gone.copies) },
    {
      label: 'Designs',
      kept: listed(kept.designs.map(({ title }) => title)),
      gone: listed(gone.designs.map(({ title }) => title)),
    },
    { label: 'Projects', kept: kept.projects ? String(kept.projects) : '', gone: gone.projects ? String(gone.projects) : '' },
  ]
  return [...rows, ...more].filter((row) => row.kept !== '' || row.gone !== '')
}

/** Which chart is it the double of? */
async function ChooseOther({ goneId, words }: { goneId: string; words: string }) {
  const [gone, { world, search }] = await Promise.all([findChart(goneId), getAnswers()])
  if (!gone || gone.isGone) notFound()
  const found = new Map<string, { id: string; title: string; designers: string }>()
  for (const hit of words === '' ? [] : search.search(words, { limit: 40, noun: 'design' }).hits) {
    const facts = world.designs.get(hit.id.slice('design:'.length))
    const chartId = facts?.design.chartId
    if (!facts || !chartId || chartId === goneId || facts.ownerId !== gone.owner.id) continue
    const designers = listed(facts.designerIds.flatMap((id) => world.designers.get(id) ?? []))
    found.set(chartId, { id: chartId, title: facts.chartTitle, designers })
  }
  return (
    <>
      <PageHead
        title={`What is ${gone.title} a double of?`}
        crumbs={crumbs}
        byline={`Look for the chart that is kept, among those of ${gone.owner.name}.`}
      />
      <FindBox
        words={words}
        isFocused
        at={`/charts/doubles/merge?gone=${goneId}`}
        label="Title or designer of the chart that is kept"
        placeholder="rook, Stoat …"
      />
      {words !== '' &&
        (found.size === 0 ? (
          <Empty title="No chart like that">Try fewer words, or another spelling.</Empty>
        ) : (
          <Ledger
            caption="Charts like that"
            rows={[...found.values()]}
            rowKey={({ id }) => id}
            rowHref={({ id }) => `/charts/doubles/merge?kept=${id}&gone=${goneId}`}
            columns={[
              { key: 'title', head: 'Chart', cell: ({ title }) => <span className="title">{title}</span>, phone: 'lead' },
              { key: 'by', head: 'Designer', cell: ({ designers }) => designers },
            ]}
          />
        ))}
    </>
  )
}
