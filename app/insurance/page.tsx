import type { Metadata } from 'next'
import type { ClassTotal } from '#lib/insurance/insurance-list'
import { insuredClasses, type Valued } from '#lib/insurance/insured'
import { formatPrice } from '#lib/quantity/money'
import type { Settings } from '#lib/settings/settings'
import { Button, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { NumberField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Photo } from '#ui/photo'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import {
  insuredClassWords,
  irreplaceableWords,
  manyWords,
  photoWords,
  receiptWords,
  totalValueWords,
  totalWords,
  valueWords,
} from '#words/insurance'
import { priceWords } from '#words/price'
import { insuranceQuerySchema, insuredOwners, readInsurance } from '../_worth/read-insurance'
import { saveValuesAction } from './actions'
import s from './insurance.module.css'

export const metadata: Metadata = { title: 'Insurance list' }

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

/** Things shown on the page; all of them are in the files. */
const mostShown = 200

export default async function InsurancePage({ searchParams }: Props) {
  const { owner } = insuranceQuerySchema.parse(await searchParams)
  const { owners, settings } = await getViewer()
  const insured = insuredOwners(owners, owner)
  const list = await readInsurance(insured, settings)
  const { currency } = settings
  const price = (minor: number) => priceWords(minor, currency)
  const query = new URLSearchParams(insured.map(({ id }) => ['owner', id])).toString()
  const classes = list.totals.filter(({ count, partCount }) => count > 0 || partCount > 0)
  const isEmpty = classes.length === 0 && list.apart.length === 0
  return (
    <>
      <PageHead
        title="Insurance list"
        byline={
          insured.length === 0
            ? undefined
            : `Goods of ${listed(insured.map(({ name }) => name))}. With prices: not a list to share.`
        }
        actions={
          !isEmpty && (
            <>
              <LinkButton kind="first" href={`/insurance/insurance.pdf?${query}`} target="_blank">
                PDF with photographs
              </LinkButton>
              <LinkButton download href={`/insurance/insurance.csv?${query}`}>
                CSV
              </LinkButton>
            </>
          )
        }
      />
      <PrintLine>Insurance list of {listed(insured.map(({ name }) => name))}</PrintLine>
      <form className={s.choose} action="/insurance">
        <fieldset>
          <legend>Whose goods</legend>
          {owners.map(({ id, name, kind }) => (
            <label key={id}>
              <input type="checkbox" name="owner" value={id} defaultChecked={insured.some((one) => one.id === id)} />
              {name}
              {kind === 'shop' && ' (shop stock)'}
            </label>
          ))}
        </fieldset>
        <Button type="submit">Show these</Button>
      </form>
      {isEmpty ? (
        <Empty title="Nothing to insure yet" actions={<LinkButton href="/bring-in">Bring in what is held</LinkButton>}>
          {insured.length === 0
            ? 'No owner here is a stash at home. Tick whose goods are to be listed.'
            : 'What these owners hold stands here as soon as it is on record, class by class with what it would cost to replace.'}
        </Empty>
      ) : (
        <>
          {list.unvalued > 0 && (
            <Notice kind="caution" title={`${counted(list.unvalued, 'thing')} without a value`}>
              The totals lack them. Give a price on the thing’s own page, on the line of thread, or{' '}
              <a href="#values">for the class</a>.
            </Notice>
          )}
          <Section title="To replace, by class">
            <div className={s.column}>
              <Ledger
                caption="What it would cost to replace, by class"
                columns={totalColumns(currency)}
                rows={classes}
                rowKey={(total) => total.class}
                foot={
                  <>
                    {list.totalMinor !== list.goodsMinor && (
                      <span className={s.sum}>
                        <span>without finished pieces</span> <span>{price(list.goodsMinor)}</span>
                      </span>
                    )}
                    <span className={`${s.sum} ${s.all}`}>
                      <span>in all</span> <span>{price(list.totalMinor)}</span>
                    </span>
                  </>
                }
              />
            </div>
          </Section>
          {list.apart.length > 0 && (
            <Section
              title="Charts out of print"
              id="apart"
              note={`In no total, since they cannot be bought; last known ${price(list.apartMinor)} together.`}
            >
              <ThingTable caption="Charts out of print, with the last known price" things={list.apart} currency={currency} />
            </Section>
          )}
          <Section
            title="Cannot be replaced"
            id="irreplaceable"
            note={list.irreplaceable.length === 0 ? undefined : counted(list.irreplaceable.length, 'thing')}
          >
            {list.irreplaceable.length === 0 ? (
              <p className="quiet">
                Nothing is known to be out of print, no longer made or finished. A chart’s own page takes “out of print”.
              </p>
            ) : (
              <ThingTable caption="What cannot be replaced" things={list.irreplaceable} currency={currency} withReason />
            )}
          </Section>
          <Section
            title="Photograph and receipt for each dear thing"
            id="dear"
            note={`What costs ${price(settings.dearMinor)} or more, is out of print, or is finished work.`}
          >
            {list.dear.length === 0 ? (
              <p className="quiet">Nothing is that dear.</p>
            ) : (
              <DearTable things={list.dear} currency={currency} />
            )}
          </Section>
        </>
      )}
      <Section title="What one costs, where the thing has no price" id="values">
        <ValuesForm settings={settings} />
      </Section>
      <p className={`quiet ${s.last}`}>
        Values are what is on record, not a valuation: ask the insurer which proof is wanted. Keep a copy of the PDF, with a{' '}
        <Link href="/settings/backups">backup</Link>, in another house.
      </p>
    </>
  )
}

const totalColumns = (currency: string): readonly Column<ClassTotal>[] => [
  { key: 'class', head: 'Class', phone: 'lead', cell: (total) => insuredClassWords[total.class] },
  { key: 'many', head: 'How many', phone: 'line', cell: totalWords },
  {
    key: 'unvalued',
    head: 'Without a value',
    phone: 'line',
    cell: ({ unvalued }) => (unvalued === 0 ? '' : `${counted(unvalued, 'thing')} without a value`),
  },
  {
    key: 'value',
    head: 'To replace',
    phone: 'side',
    isNumeric: true,
    cell: (total) => <span className="nb">{totalValueWords(total, currency)}</span>,
  },
]

const hrefs = {
  thread: '/threads',
  cloth: '/cloth',
  chart: '/charts',
  notion: '/notions',
  project: '/projects',
} as const
const hrefOf = ({ noun, id }: Valued): string => `${hrefs[noun]}/${id}`

const titled = (thing: Valued) => (
  <span className={s.title}>
    {thing.title}
    {thing.description && <small>{thing.description}</small>}
  </span>
)

type TableProps = { caption: string; things: readonly Valued[]; currency: string; withReason?: boolean }

function ThingTable({ caption, things, currency, withReason }: TableProps) {
  const columns: readonly Column<Valued>[] = [
    { key: 'what', head: 'What', phone: 'lead', cell: titled },
    ...(withReason
      ? [
          {
            key: 'why',
            head: 'Why',
            phone: 'line',
            cell: ({ irreplaceable }: Valued) => irreplaceable && irreplaceableWords[irreplaceable],
          } as const,
        ]
      : []),
    { key: 'many', head: 'How many', phone: 'line', cell: manyWords },
    { key: 'where', head: 'Where', phone: 'line', cell: ({ placeLabel }) => placeLabel ?? '' },
    { key: 'value', head: 'Value', phone: 'side', isNumeric: true, cell: (thing) => valueWords(thing, currency) },
  ]
  return (
    <>
      <Ledger caption={caption} columns={columns} rows={things.slice(0, mostShown)} rowKey={({ key }) => key} rowHref={hrefOf} />
      {things.length > mostShown && <p className="quiet">{things.length - mostShown} more are in the PDF and the CSV.</p>}
    </>
  )
}

function DearTable({ things, currency }: { things: readonly Valued[]; currency: string }) {
  const columns: readonly Column<Valued>[] = [
    {
      key: 'photo',
      head: 'Photograph',
      phone: 'mark',
      width: '6rem',
      cell: (thing) =>
        thing.photoFile === null ? (
          <span className="quiet">none</span>
        ) : (
          <Photo
            className={s.photo}
            file={thing.photoFile}
            look={undefined}
            alt=""
            room={{ widthPx: 72, heightPx: 54 }}
            isCropped
          />
        ),
    },
    { key: 'what', head: 'What', phone: 'lead', cell: titled },
    { key: 'has', head: 'Proof', phone: 'line', cell: (thing) => `${photoWords(thing)}, ${receiptWords(thing)}` },
    { key: 'value', head: 'Value', phone: 'side', isNumeric: true, cell: (thing) => valueWords(thing, currency) },
  ]
  return (
    <>
      <Ledger
        caption="Dear things, with what proves them"
        columns={columns}
        rows={things.slice(0, mostShown)}
        rowKey={({ key }) => key}
        rowHref={(thing) =>
          thing.noun === 'thread'
            ? hrefOf(thing)
            : `${hrefOf(thing)}#${thing.noun === 'chart' || thing.noun === 'project' ? 'files' : 'worth'}`
        }
      />
      {things.length > mostShown && <p className="quiet">{things.length - mostShown} more are in the PDF and the CSV.</p>}
    </>
  )
}

function ValuesForm({ settings }: { settings: Settings }) {
  const shown = (minor: number | null) => (minor === null ? '' : formatPrice(minor, null))
  return (
    <Form action={saveValuesAction} submit="Keep these">
      <div className={s.values}>
        {insuredClasses.map((name) => (
          <NumberField
            key={name}
            name={name}
            label={name === 'finished' ? 'A finished piece' : insuredClassWords[name]}
            unit={settings.currency}
            defaultValue={shown(settings.replacement[name])}
            hint={name === 'finished' ? 'Where no price for its finishing is on record.' : undefined}
          />
        ))}
        <NumberField
          name="dear"
          label="Dear from"
          unit={settings.currency}
          defaultValue={shown(settings.dearMinor)}
          hint="From this price of one on, a photograph and a receipt are asked for."
        />
      </div>
    </Form>
  )
}
