import type { Metadata } from 'next'
import { headers } from 'next/headers'
import { numberText } from '#language/figures'
import { listPlaceOptions } from '#lib/db/place/queries'
import { type Label, labelKey, labelNouns, labelText } from '#lib/label/label'
import { labelPages, sheetsFor } from '#lib/printing/label-pages'
import { labelSheets, tapeHeightsMm } from '#lib/printing/label-sheets'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { FormStrip, StripCheck, StripSelect, StripStep, StripText } from '#ui/form-strip'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { labelNounWords } from '#words/labels'
import { describeLabelRefusal, type ReadLabels, readLabels } from '../_labels/read-labels'
import { keepPrintedAction } from './actions'
import { choiceMeant } from './choice-meant'
import { LabelPreview, measure } from './label-preview'
import s from './labels.module.css'
import {
  baseOfRequest,
  choiceOf,
  isOnlyHere,
  type LabelsQuery,
  ontoOf,
  ownSheet,
  readBase,
  readLabelsQuery,
  stockOf,
  whichOf,
} from './labels-query'
import { describeStockRefusal, ownFieldWords } from './words'

export const metadata: Metadata = { title: 'Labels' }

const rowsShown = 100
const tapesShown = 3

const stockOptions = [
  ...labelSheets.map(({ key, name }) => ({ value: key, label: name, group: 'Sheets' })),
  { value: ownSheet, label: 'Other sheets: type the sizes', group: 'Sheets' },
  ...tapeHeightsMm.map((height) => ({ value: `tape-${height}`, label: `Tape, ${height} mm high`, group: 'Tape' })),
]

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function LabelsPage({ searchParams }: PageProps) {
  const given = await searchParams
  const query = readLabelsQuery(given)
  const [{ settings, ownerIds, ownerName }, places, requestHeaders] = await Promise.all([
    getViewer(),
    listPlaceOptions(),
    headers(),
  ])
  const which = whichOf(query)
  const read = await readLabels({
    choice: await choiceMeant(query, ownerIds, settings.lengthUnit),
    which,
    ownerIds,
    unit: settings.lengthUnit,
  })
  const typedBase = query.base ?? baseOfRequest(requestHeaders)
  return (
    <>
      <PageHead
        title="Labels"
        crumbs={[{ label: 'Places', href: '/places' }, { label: 'Labels' }]}
        byline={`Of all places, and of the things of ${ownerName || 'their owners'}.`}
      >
        {read.ok && <p>{countSentence(read.value)}</p>}
      </PageHead>
      <Choices query={query} places={places} which={which} base={typedBase} />
      {read.ok ? (
        <ToPrint read={read.value} query={query} search={searchOf(given)} typedBase={typedBase} />
      ) : (
        <Notice kind="refusal" title="No labels yet">
          {describeLabelRefusal(read.error)}
        </Notice>
      )}
    </>
  )
}

function countSentence({ count, changedCount }: ReadLabels): string {
  if (count === 0) return 'Nothing to label.'
  if (changedCount === 0) return `${counted(count, 'label')}, all as they were printed.`
  return `${numberText(changedCount)} of ${counted(count, 'label')} new or changed since printing.`
}

function searchOf(given: Record<string, string | string[] | undefined>): string {
  const search = new URLSearchParams()
  for (const [name, values] of Object.entries(given)) for (const value of [values ?? []].flat()) search.append(name, value)
  return search.toString()
}

type ChoicesProps = {
  query: LabelsQuery
  places: readonly { id: string; pathText: string }[]
  which: 'changed' | 'all'
  base: string
}

function Choices({ query, places, which, base }: ChoicesProps) {
  const choice = choiceOf(query)
  const onto = ontoOf(query)
  const isSheet = !onto.startsWith('tape-')
  const stockName = stockOptions.find(({ value }) => value === onto)?.label ?? onto
  const text = (name: keyof typeof ownFieldWords) => (
    <StripText key={name} name={name} label={ownFieldWords[name]} value={query[name]} />
  )
  return (
    <FormStrip
      action="/labels"
      label="Which labels, and on what"
      summary={`${which === 'changed' ? 'What changed' : 'All'}, on ${stockName}`}
      hidden={{ ...(query.one && { one: query.one }), ...(query.chosen && { chosen: query.chosen }) }}
      clear={query.one || query.chosen ? { href: '/labels', label: 'Choose other labels' } : undefined}
      second={
        <>
          {query.chosen === null &&
            choice.kind === 'in-place' &&
            labelNouns.map((noun) => (
              <StripCheck
                key={noun}
                name="what"
                value={noun}
                label={labelNounWords[noun]}
                isChecked={choice.nouns.includes(noun)}
              />
            ))}
          {isSheet && (
            <>
              <StripStep name="start" label="Start at label" unit="of the first sheet" value={query.start} max={189} none="1" />
              <StripCheck name="trial" label="Draw their edges, for a trial on plain paper" isChecked={query.trial !== null} />
            </>
          )}
        </>
      }
    >
      {query.chosen === null && choice.kind === 'in-place' && (
        <StripSelect
          name="place"
          label="Where"
          value={query.place ?? ''}
          any="everywhere"
          options={places.map(({ id, pathText }) => ({ value: id, label: pathText }))}
        />
      )}
      <StripSelect
        name="which"
        label="Which"
        value={which}
        options={[
          { value: 'changed', label: 'only what is new or changed' },
          { value: 'all', label: 'all of them' },
        ]}
      />
      <StripSelect name="onto" label="Printed on" value={onto} options={stockOptions} />
      <StripText name="base" label="Codes lead to" value={base} />
      {onto === ownSheet && (
        <>
          <StripSelect
            name="paper"
            label="Paper"
            value={query.paper}
            options={[
              { value: 'a4', label: 'A4' },
              { value: 'letter', label: 'Letter' },
            ]}
          />
          {(['columns', 'rows', 'width', 'height', 'left', 'top', 'gapX', 'gapY'] as const).map(text)}
        </>
      )}
    </FormStrip>
  )
}

type ToPrintProps = { read: ReadLabels; query: LabelsQuery; search: string; typedBase: string }

function ToPrint({ read, query, search, typedBase }: ToPrintProps) {
  const { labels, count, printed, seen } = read
  if (labels.length === 0) {
    return count === 0 ? (
      <Empty title="Nothing to label" actions={<LinkButton href="/places/new">Write down a place</LinkButton>}>
        Nothing of that kind is there. Labels are made for places, threads, cloth, charts and projects once they are written down.
      </Empty>
    ) : (
      <Empty title="Nothing changed">
        Every label reads as it did when it was printed. Choose “all of them” to print them again.
      </Empty>
    )
  }
  const stock = stockOf(query)
  const base = readBase(typedBase)
  if (!stock.ok || base === null) {
    return (
      <Notice kind="refusal" title="These cannot be printed yet">
        {stock.ok ? 'Codes lead to an address such as http://192.168.1.20:4300.' : describeStockRefusal(stock.error)}
      </Notice>
    )
  }
  const isSheet = stock.value.kind === 'sheet'
  const onFirst =
    stock.value.kind === 'sheet' ? stock.value.sheet.columns * stock.value.sheet.rows - stock.value.startAt + 1 : tapesShown
  const sheets = stock.value.kind === 'sheet' ? sheetsFor(labels.length, stock.value.sheet, stock.value.startAt) : 0
  const { pages, withoutCode } = labelPages(labels.slice(0, onFirst), { stock: stock.value, base, hasOutlines: isSheet }, measure)
  return (
    <>
      <div className={s.acts}>
        <LinkButton kind="first" href={`/labels/labels.pdf?${search}`} target="_blank">
          {`Print ${counted(labels.length, 'label')}${isSheet ? ` on ${counted(sheets, 'sheet')}` : ''}`}
        </LinkButton>
        <Form action={keepPrintedAction} submit="They are printed" submitKind="plain" hidden={{ search, seen }} />
      </div>
      <p className={`quiet ${s.note}`}>
        Print at actual size, not fitted to the page. Once they are on their places, say they are printed: from then on only what
        changed comes up here.
      </p>
      {withoutCode > 0 && (
        <Notice kind="caution" title="No code on labels this small">
          Its squares would come out too fine for a phone. The words are printed, as large as fits.
        </Notice>
      )}
      {withoutCode === 0 && isOnlyHere(base) && (
        <Notice kind="caution" title="The codes open on this machine only">
          {`${base} leads a phone to itself. Type the address others use for this machine on your network under “Codes lead to”.`}
        </Notice>
      )}
      <div className={s.columns}>
        <Section
          title={isSheet ? 'The first sheet' : 'The first labels'}
          note={isSheet && query.trial === null ? 'The edges are not printed.' : ''}
        >
          <div className={s.preview}>
            {pages.map((page, at) => (
              <LabelPreview
                key={labelKey(labels[at] as Label)}
                page={page}
                sentence={
                  isSheet
                    ? `The first sheet, with ${counted(Math.min(onFirst, labels.length), 'label')}.`
                    : `The label of ${labels[at]?.title}.`
                }
                widthRem={isSheet ? 30 : page.widthMm * 0.24}
              />
            ))}
          </div>
        </Section>
        <Section
          title="To print"
          note={labels.length > rowsShown ? `The first ${rowsShown} of ${numberText(labels.length)}.` : ''}
        >
          <Ledger
            caption="Labels to print"
            rows={labels.slice(0, rowsShown)}
            rowKey={labelKey}
            isTight
            columns={[
              {
                key: 'label',
                head: 'Label',
                cell: (label) => (
                  <>
                    <strong>{label.title}</strong> <small className="quiet">{label.note}</small>
                  </>
                ),
                phone: 'lead',
              },
              { key: 'before', head: 'Printed', cell: (label) => beforeWords(label, printed), isAtEnd: true, phone: 'line' },
            ]}
          />
        </Section>
      </div>
    </>
  )
}

/** How a label stands against what was printed of it before. */
function beforeWords(label: Label, printed: ReadonlyMap<string, string>): string {
  const before = printed.get(labelKey(label))
  if (before === undefined) return 'never'
  if (before === labelText(label)) return 'as it reads now'
  return `before: ${before.split('\n').filter(Boolean).join(', ')}`
}
