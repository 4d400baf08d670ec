import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readLooks } from '#lib/db/photo/photo-looks'
import type { ClassTotal, InsuranceList } from '#lib/insurance/insurance-list'
import { insuredClasses, type Valued } from '#lib/insurance/insured'
import { formatPrice } from '#lib/quantity/money'
import type { Settings } from '#lib/settings/settings'
import { Photo } from '#trade/photo'
import { Button, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { NumberField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold, UnfoldButton } from '#ui/unfold'
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
  valueHow,
  valueWords,
} from '#words/insurance'
import { priceWords } from '#words/price'
import { insuranceQuerySchema, insuredOwners, readInsurance } from '../_worth/read-insurance'
import { saveValuesAction } from './actions'
import s from './insurance.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Insurance list') })

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

/** Things shown on the page; all of them are in the files. */
const mostShown = 200

export default async function InsurancePage({ searchParams }: Props) {
  const { owner } = insuranceQuerySchema.parse(await searchParams)
  const { owners, settings } = await getViewer()
  const insured = insuredOwners(owners, owner)
  const list = await readInsurance(insured, settings)
  const looks = await readLooks(list.dear.slice(0, mostShown).map(({ photoFile }) => photoFile))
  const { currency } = settings
  const price = (minor: number) => priceWords(minor, currency)
  const query = new URLSearchParams(insured.map(({ id }) => ['owner', id])).toString()
  const classes = list.totals.filter(({ count, partCount }) => count > 0 || partCount > 0)
  const isEmpty = classes.length === 0 && list.apart.length === 0
  return (
    <>
      <PageHead
        title={say('Insurance list')}
        byline={
          insured.length === 0
            ? undefined
            : say('Goods of {insured}. With prices: not a list to share.', { insured: listed(insured.map(({ name }) => name)) })
        }
        actions={
          !isEmpty && (
            <>
              <LinkButton kind="first" href={`/insurance/insurance.pdf?${query}`} target="_blank">
                {say('PDF with photographs')}
              </LinkButton>
              <LinkButton download href={`/insurance/insurance.csv?${query}`}>
                {say('CSV')}
              </LinkButton>
            </>
          )
        }
      />
      <PrintLine>{say('Insurance list of {insured}', { insured: listed(insured.map(({ name }) => name)) })}</PrintLine>
      <form className={s.choose} action="/insurance">
        <fieldset>
          <legend>{say('Whose goods')}</legend>
          {owners.map(({ id, name, kind }) => (
            <label key={id}>
              <input type="checkbox" name="owner" value={id} defaultChecked={insured.some((one) => one.id === id)} />
              {name}
              {kind === 'shop' && say(' (shop stock)')}
            </label>
          ))}
        </fieldset>
        <Button type="submit">{say('Show these')}</Button>
      </form>
      {isEmpty ? (
        <Empty
          title={say('Nothing to insure yet')}
          actions={<LinkButton href="/bring-in">{say('Bring in what is held')}</LinkButton>}
        >
          {insured.length === 0
            ? say('No owner here is a stash at home. Tick whose goods are to be listed.')
            : say(
                'What these owners hold stands here as soon as it is on record, class by class with what it would cost to replace.',
              )}
        </Empty>
      ) : (
        <>
          {list.unvalued > 0 && (
            <Notice
              kind="caution"
              title={say('{unvalued, plural, one {# thing} other {# things}} without a value', { unvalued: list.unvalued })}
            >
              {sayParts(
                'The totals lack them. Give a price on the thing’s own page, on the line of thread, or <link>for the class</link>.',
                { link: (words) => <a href="#values">{words}</a> },
              )}
            </Notice>
          )}
          <Section title={say('To replace, by class')}>
            <div className={s.column}>
              <Ledger
                caption={say('What it would cost to replace, by class')}
                columns={totalColumns(currency)}
                rows={classes}
                rowKey={(total) => total.class}
                under={(total) => isSummed(total) && <ClassSum total={total} list={list} currency={currency} />}
                foot={
                  <>
                    {list.totalMinor !== list.goodsMinor && (
                      <span className={s.sum}>
                        <span>{say('without finished pieces')}</span> <span>{price(list.goodsMinor)}</span>
                      </span>
                    )}
                    <span className={`${s.sum} ${s.all}`}>
                      <span>{say('in all')}</span> <span>{price(list.totalMinor)}</span>
                    </span>
                  </>
                }
              />
              <Unfold label={say('How the totals come about')}>
                <Sums>
                  <TotalSum list={list} currency={currency} />
                </Sums>
              </Unfold>
            </div>
          </Section>
          {list.apart.length > 0 && (
            <Section
              title={say('Charts out of print')}
              id="apart"
              note={say('In no total, since they cannot be bought; last known {price} together.', {
                price: price(list.apartMinor),
              })}
            >
              <ThingTable
                caption={say('Charts out of print, with the last known price')}
                things={list.apart}
                currency={currency}
              />
            </Section>
          )}
          <Section
            title={say('Cannot be replaced')}
            id="irreplaceable"
            note={list.irreplaceable.length === 0 ? undefined : counted(list.irreplaceable.length, 'thing')}
          >
            {list.irreplaceable.length === 0 ? (
              <p className="quiet">
                {say('Nothing is known to be out of print, no longer made or finished. A chart’s own page takes “out of print”.')}
              </p>
            ) : (
              <ThingTable caption={say('What cannot be replaced')} things={list.irreplaceable} currency={currency} withReason />
            )}
          </Section>
          <Section
            title={say('Photograph and receipt for each dear thing')}
            id="dear"
            note={say('What costs {price} or more, is out of print, or is finished work.', { price: price(settings.dearMinor) })}
          >
            {list.dear.length === 0 ? (
              <p className="quiet">{say('Nothing is that dear.')}</p>
            ) : (
              <DearTable things={list.dear} currency={currency} looks={looks} />
            )}
          </Section>
        </>
      )}
      <Section title={say('What one costs, where the thing has no price')} id="values">
        <ValuesForm settings={settings} />
      </Section>
      <p className={`quiet ${s.last}`}>
        {sayParts(
          'Values are what is on record, not a valuation: ask the insurer which proof is wanted. Keep a copy of the PDF, with a <link>backup</link>, in another house.',
          { link: (words) => <Link href="/settings/backups">{words}</Link> },
        )}
      </p>
    </>
  )
}

/** Some of it has a value, so that there is something to add up. */
const isSummed = ({ valueMinor }: ClassTotal): boolean => valueMinor > 0

const totalColumns = (currency: string): readonly Column<ClassTotal>[] => [
  { key: 'class', head: say('Class'), phone: 'lead', cell: (total) => insuredClassWords[total.class] },
  { key: 'many', head: say('How many'), phone: 'line', cell: totalWords },
  {
    key: 'unvalued',
    head: say('Without a value'),
    phone: 'line',
    cell: ({ unvalued }) =>
      unvalued === 0 ? '' : say('{unvalued, plural, one {# thing} other {# things}} without a value', { unvalued }),
  },
  {
    key: 'value',
    head: say('To replace'),
    phone: 'side',
    isNumeric: true,
    cell: (total) => {
      const words = totalValueWords(total, currency)
      if (!isSummed(total)) return <span className="nb">{words}</span>
      return (
        <UnfoldButton label={say('{words}: how it is added up', { words })}>
          <span className="nb">{words}</span>
        </UnfoldButton>
      )
    },
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
    { key: 'what', head: say('What'), phone: 'lead', cell: titled },
    ...(withReason
      ? [
          {
            key: 'why',
            head: say('Why'),
            phone: 'line',
            cell: ({ irreplaceable }: Valued) => irreplaceable && irreplaceableWords[irreplaceable],
          } as const,
        ]
      : []),
    { key: 'many', head: say('How many'), phone: 'line', cell: manyWords },
    { key: 'where', head: say('Where'), phone: 'line', cell: ({ placeLabel }) => placeLabel ?? '' },
    {
      key: 'value',
      head: say('Value'),
      phone: 'side',
      isNumeric: true,
      cell: (thing) => <ValueCell thing={thing} currency={currency} />,
    },
  ]
  return (
    <>
      <Ledger caption={caption} columns={columns} rows={things.slice(0, mostShown)} rowKey={({ key }) => key} rowHref={hrefOf} />
      {things.length > mostShown && (
        <p className="quiet">{say('{things} more are in the PDF and the CSV.', { things: things.length - mostShown })}</p>
      )}
    </>
  )
}

type DearProps = { things: readonly Valued[]; currency: string; looks: Awaited<ReturnType<typeof readLooks>> }

function DearTable({ things, currency, looks }: DearProps) {
  const columns: readonly Column<Valued>[] = [
    {
      key: 'photo',
      head: say('Photograph'),
      phone: 'mark',
      width: '6rem',
      cell: (thing) =>
        thing.photoFile === null ? (
          <span className="quiet">{say('none')}</span>
        ) : (
          <Photo
            className={s.photo}
            file={thing.photoFile}
            look={looks.get(thing.photoFile)}
            alt=""
            room={{ widthPx: 72, heightPx: 54 }}
            isCropped
          />
        ),
    },
    { key: 'what', head: say('What'), phone: 'lead', cell: titled },
    { key: 'has', head: say('Proof'), phone: 'line', cell: (thing) => `${photoWords(thing)}, ${receiptWords(thing)}` },
    {
      key: 'value',
      head: say('Value'),
      phone: 'side',
      isNumeric: true,
      cell: (thing) => <ValueCell thing={thing} currency={currency} />,
    },
  ]
  return (
    <>
      <Ledger
        caption={say('Dear things, with what proves them')}
        columns={columns}
        rows={things.slice(0, mostShown)}
        rowKey={({ key }) => key}
        rowHref={(thing) =>
          thing.noun === 'thread'
            ? hrefOf(thing)
            : `${hrefOf(thing)}#${thing.noun === 'chart' || thing.noun === 'project' ? 'files' : 'worth'}`
        }
      />
      {things.length > mostShown && (
        <p className="quiet">{say('{things} more are in the PDF and the CSV.', { things: things.length - mostShown })}</p>
      )}
    </>
  )
}

const ValueCell = ({ thing, currency }: { thing: Valued; currency: string }) => (
  <>
    {valueWords(thing, currency)}
    <small className={s.how}>{valueHow(thing, { currency, namesClass: false })}</small>
  </>
)

/** As many things of a class as a sum names one by one, the dearest first. */
const mostAdded = 12

function ClassSum({ total, list, currency }: { total: ClassTotal; list: InsuranceList; currency: string }) {
  const price = (minor: number) => priceWords(minor, currency)
  const things = list.things.filter((thing) => thing.class === total.class && thing.valuedBy !== 'nothing')
  const named = things.slice(0, things.length > mostAdded + 1 ? mostAdded : things.length)
  const others = things.slice(named.length)
  return (
    <Sums>
      <Sum
        title={insuredClassWords[total.class]}
        rows={[
          ...named.map((thing) => ({
            label: thing.title,
            how: valueHow(thing, { currency }),
            figure: price(thing.valueMinor),
          })),
          ...(others.length > 0
            ? [
                {
                  label: say('{others, plural, one {# thing} other {# things}} more, each so', { others: others.length }),
                  figure: price(others.reduce((sum, { valueMinor }) => sum + valueMinor, 0)),
                },
              ]
            : []),
          ...(total.unvalued > 0
            ? [
                {
                  label: say('{unvalued, plural, one {# thing} other {# things}} without a value', { unvalued: total.unvalued }),
                  figure: say('not known'),
                },
              ]
            : []),
          { label: say('Together'), figure: totalValueWords(total, currency), kind: 'end' },
        ]}
        note={say(
          'A thing’s own price goes before the price of its class. Parts of put-ups count by their known length. Rounded down, once for each thing.',
        )}
      />
    </Sums>
  )
}

function TotalSum({ list, currency }: { list: InsuranceList; currency: string }) {
  const rows = (isFinished: boolean) =>
    list.totals.flatMap((total) =>
      (total.class === 'finished') === isFinished && total.valueMinor > 0
        ? [{ label: insuredClassWords[total.class], figure: priceWords(total.valueMinor, currency) }]
        : [],
    )
  const finished = rows(true)
  return (
    <Sum
      title={say('To replace, in all')}
      rows={[
        ...rows(false),
        ...(finished.length > 0
          ? [{ label: say('without finished pieces'), figure: priceWords(list.goodsMinor, currency), kind: 'rule' as const }]
          : []),
        ...finished,
        { label: say('in all'), figure: priceWords(list.totalMinor, currency), kind: 'end' },
      ]}
      note={list.apart.length > 0 ? say('Charts out of print are in neither: they cannot be bought.') : undefined}
    />
  )
}

function ValuesForm({ settings }: { settings: Settings }) {
  const shown = (minor: number | null) => (minor === null ? '' : formatPrice(minor, null))
  return (
    <Form action={saveValuesAction} submit={say('Keep these')}>
      <div className={s.values}>
        {insuredClasses.map((name) => (
          <NumberField
            key={name}
            name={name}
            label={name === 'finished' ? say('A finished piece') : insuredClassWords[name]}
            unit={settings.currency}
            defaultValue={shown(settings.replacement[name])}
            hint={name === 'finished' ? say('Where no price for its finishing is on record.') : undefined}
          />
        ))}
        <NumberField
          name="dear"
          label={say('Dear from')}
          unit={settings.currency}
          defaultValue={shown(settings.dearMinor)}
          hint={say('From this price of one on, a photograph and a receipt are asked for.')}
        />
      </div>
    </Form>
  )
}
