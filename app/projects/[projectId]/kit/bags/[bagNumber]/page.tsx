import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type KitBag, type KitBags, readKitBags } from '#lib/db/kit-bag/queries'
import { faultsOf, sharpsIn } from '#lib/project/kit/check'
import type { MasterLine } from '#lib/project/kit/master-list'
import { isInRange } from '#lib/project/kit/record'
import { ThreadName } from '#trade/thread-bar'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Facts } from '#ui/facts'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { rememberedName } from '#viewer/remembered-name'
import { getViewer } from '#viewer/viewer'
import { hexesOf } from '#words/colour'
import { dayOf } from '#words/date'
import { bagStatusWords, lineName, markWords, perKitWords, sharpsCaution } from '#words/kit'
import { cutAgainAction, stepAction } from '../actions'
import { BagMark } from '../bag-tile'
import s from '../bags.module.css'
import { type CheckRow, CheckSheet } from '../check-sheet'
import { bagNumberSchema } from '../schema'

type PageProps = { params: Promise<{ projectId: string; bagNumber: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { projectId, bagNumber } = await params
  const kit = await readKitBags(projectId)
  return { title: kit ? say('Bag {bagNumber} of {title}', { bagNumber, title: kit.project.title }) : say('Bag') }
}

export default async function KitBagPage({ params }: PageProps) {
  const { projectId, bagNumber } = await params
  const number = bagNumberSchema.safeParse(bagNumber)
  const [kit, name, { settings }] = await Promise.all([readKitBags(projectId), rememberedName(), getViewer()])
  const bag = kit?.bags.find((one) => one.number === number.data)
  if (!kit || !bag) notFound()
  const bags = `/projects/${projectId}/kit/bags`
  const next = kit.bags.find(
    (one) => one.number > bag.number && (bag.status === 'checked' || bag.status === 'packed') && one.status === 'packed',
  )
  const needles = sharpsIn(bag.lines.flatMap((line) => (line.kind === 'item' ? [line] : [])))
  const rows = bag.lines.map(
    (line): CheckRow => ({
      ...{
        bag: bag.number,
        key: line.key,
        label: say('Bag {number}, {lineName}, {perKit}', {
          number: bag.number,
          lineName: lineName(line),
          perKit: perKitWords(line, settings),
        }),
      },
      title: <LineTitle line={line} />,
      note: [perKitWords(line, settings), lotOf(kit, bag, line)].filter(Boolean).join(' · '),
      mark: bag.marks.find(({ key }) => key === line.key) ?? null,
    }),
  )
  const isOpenToCheck = bag.status === 'packed' || bag.status === 'checked'
  return (
    <>
      <PageHead
        title={say('Bag {number}', { number: bag.number })}
        note={bag.isSpare ? say('spare') : undefined}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: kit.project.title, href: `/projects/${projectId}` },
          { label: say('Bags'), href: bags },
          { label: say('Bag {number}', { number: bag.number }) },
        ]}
        actions={
          next && (
            <LinkButton href={`${bags}/${next.number}`}>{sayParts('Next: bag {number}', { number: next.number })}</LinkButton>
          )
        }
      >
        <span className={s.standing}>
          <BagMark status={bag.status} isAtFault={faultsIn(bag) > 0} />
          {bagStatusWords[bag.status]}
          {bag.status === 'sold' && bag.soldTo && say(' to {soldTo}', { soldTo: bag.soldTo })}
        </span>
      </PageHead>
      <Facts items={factsOf(bag)} />
      {bag.isSpare && bag.status !== 'sold' && (
        <p className={s.quiet}>{say('A spare has no chart until it is sold; selling it takes one bought chart more.')}</p>
      )}
      {isOpenToCheck ? (
        <Section title={say('Against the list')} note={checkNote(bag)}>
          {needles > 0 && (
            <Notice kind="caution" title={say('Count the {needles, plural, one {needle} other {# needles}}.', { needles })}>
              {sharpsCaution()}
            </Notice>
          )}
          <CheckSheet
            projectId={projectId}
            rows={rows}
            name={name}
            allThere={
              needles > 0
                ? say('All there, {needles, plural, one {# needle} other {# needles}} counted', { needles })
                : say('All there')
            }
            heard={say('Check of bag {number}', { number: bag.number })}
          />
        </Section>
      ) : (
        <Section
          title={say('What goes in')}
          note={
            bag.uncut.length > 0
              ? say('{uncut, plural, one {# thread} other {# threads}} to cut', { uncut: bag.uncut.length })
              : undefined
          }
        >
          <Ledger
            caption={say('What bag {number} holds', { number: bag.number })}
            rows={rows}
            rowKey={({ key }) => key}
            columns={[
              { key: 'line', head: say('Line'), cell: ({ title }) => title, phone: 'lead' },
              { key: 'each', head: say('In the kit'), cell: ({ note }) => note, phone: 'line' },
              {
                key: 'mark',
                head: say('Found'),
                cell: ({ mark, key }) => (mark ? markWords[mark.status] : bag.uncut.includes(key) ? say('not cut yet') : ''),
                phone: 'side',
              },
            ]}
          />
        </Section>
      )}
      <Mending kit={kit} bag={bag} name={name} />
      <Ends kit={kit} bag={bag} name={name} />
      {bag.note && (
        <Section title={say('What happened to it')}>
          <p className={s.kept}>{bag.note}</p>
        </Section>
      )}
    </>
  )
}

function LineTitle({ line }: { line: MasterLine }) {
  if (line.kind !== 'thread') return <b>{lineName(line)}</b>
  return <ThreadName maker={line.makerName} code={line.code} name={line.name ?? undefined} hexes={hexesOf(line.lab)} />
}

function lotOf({ lots }: KitBags, { number }: KitBag, line: MasterLine): string {
  if (line.kind !== 'thread') return ''
  const cut = lots.find((lot) => lot.threadId === line.threadId && isInRange(lot, number))
  if (!cut) return ''
  return cut.lot === null ? say('lot unmarked') : say('lot {lot}', { lot: cut.lot })
}

const faultsIn = ({ lines, marks }: Pick<KitBag, 'lines' | 'marks'>): number =>
  faultsOf(
    lines.map(({ key }) => key),
    marks,
  ).length

function checkNote({ status, lines, marks }: KitBag): string {
  const faults = faultsIn({ lines, marks })
  if (faults > 0) return say('{faults, plural, one {# line} other {# lines}} short or wrong: it cannot be sealed', { faults })
  return status === 'checked'
    ? say('all there')
    : say('{marks} of {lines, plural, one {# line} other {# lines}} looked for', { marks: marks.length, lines: lines.length })
}

/** Threads found short or wrong can be cut anew from stock. */
function Mending({ kit, bag, name }: { kit: KitBags; bag: KitBag; name: string }) {
  const isFault = (line: MasterLine) => bag.marks.some(({ key, status }) => key === line.key && status !== 'there')
  const threads = bag.lines.filter((line) => line.kind === 'thread' && isFault(line))
  if (bag.status !== 'packed' || threads.length === 0) return null
  return (
    <Section title={say('Mend it')} note={say('Cut anew from stock; the record then names the new piece and its lot')}>
      {threads.map(
        (line) =>
          line.kind === 'thread' && (
            <Form
              key={line.key}
              action={cutAgainAction}
              hidden={{ projectId: kit.project.id, bag: String(bag.number), threadId: line.threadId, by: name }}
              submit={say('Cut {lineName} anew', { lineName: lineName(line) })}
              submitKind="plain"
            />
          ),
      )}
    </Section>
  )
}

function Ends({ kit, bag, name }: { kit: KitBags; bag: KitBag; name: string }) {
  const hidden = (step: string) => ({ projectId: kit.project.id, step, bags: String(bag.number) })
  const by = <TextField name="by" label={say('Who does it')} defaultValue={name} autoComplete="name" />
  const { status, uncut } = bag
  return (
    <div className={s.ends}>
      {status === 'open' && uncut.length === 0 && (
        <ConfirmDialog
          opener={say('Packed')}
          title={say('Bag {number} is packed', { number: bag.number })}
          confirm={say('Packed')}
          action={stepAction}
          hidden={hidden('pack')}
        >
          {by}
        </ConfirmDialog>
      )}
      {(status === 'checked' || status === 'packed') && (
        <ConfirmDialog
          opener={say('Seal it')}
          title={say('Seal bag {number}', { number: bag.number })}
          confirm={say('Seal it')}
          action={stepAction}
          hidden={hidden('seal')}
        >
          {by}
        </ConfirmDialog>
      )}
      {(status === 'checked' || status === 'packed') && (
        <ConfirmDialog
          opener={say('Unpack it')}
          openerKind="quiet"
          title={say('Unpack bag {number}?', { number: bag.number })}
          confirm={say('Unpack it')}
          action={stepAction}
          hidden={hidden('unpack')}
        >
          <p>
            {say(
              'What was counted into it, such as needles, goes back on record. Its cuts stay its own. What was ticked is forgotten.',
            )}
          </p>
        </ConfirmDialog>
      )}
      {status === 'sealed' && (
        <>
          <ConfirmDialog
            opener={say('Sold')}
            title={say('Bag {number} is sold', { number: bag.number })}
            confirm={say('Sold')}
            action={stepAction}
            hidden={hidden('sell')}
          >
            <TextField name="soldTo" label={say('To whom')} hint={say('Whom to tell, should a lot turn out wrong')} />
          </ConfirmDialog>
          <ConfirmDialog
            opener={say('Open it again')}
            openerKind="quiet"
            title={say('Open bag {number} again?', { number: bag.number })}
            confirm={say('Open it')}
            action={stepAction}
            hidden={hidden('unseal')}
          >
            <p>{say('It is to be looked through again before it is sealed anew. Its chart counts as stock until then.')}</p>
            <TextField name="reason" label={say('Why')} isRequired />
            {by}
          </ConfirmDialog>
        </>
      )}
      {status === 'sold' && (
        <ConfirmDialog
          opener={say('Taken back')}
          openerKind="quiet"
          title={say('Bag {number} came back?', { number: bag.number })}
          confirm={say('Taken back')}
          action={stepAction}
          hidden={hidden('take back')}
        >
          <p>
            {say(
              'It is sealed and unsold again; open it to mend it.{isSpare, select, yes { The chart sold with this spare is back on record.} other {}}',
              { isSpare: bag.isSpare },
            )}
          </p>
          <TextField name="reason" label={say('Why')} isRequired />
        </ConfirmDialog>
      )}
    </div>
  )
}

function factsOf(bag: KitBag) {
  const said = (at: Date | null, by: string | null) => at && `${dayOf(at)}${by ? `, ${by}` : ''}`
  return [
    { label: say('Packed'), value: said(bag.packedAt, bag.packedBy) },
    { label: say('Checked'), value: said(bag.checkedAt, bag.checkedBy) },
    { label: say('Sealed'), value: said(bag.sealedAt, bag.sealedBy) },
    { label: say('Sold'), value: said(bag.soldAt, bag.soldTo) },
  ].flatMap(({ label, value }) => (value ? [{ label, value }] : []))
}
