import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readKitCutting } from '#lib/db/kit-bag/cut-kits'
import { type KitBags, readKitBags } from '#lib/db/kit-bag/queries'
import { countBags } from '#lib/project/kit/bag-status'
import { sharpsIn } from '#lib/project/kit/check'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FieldRow, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { rememberedName } from '#viewer/remembered-name'
import { getViewer } from '#viewer/viewer'
import { bagStatusWords, bagsText, sharpsCaution } from '#words/kit'
import { stepAction } from './actions'
import { BagTile } from './bag-tile'
import s from './bags.module.css'
import { CutSection } from './cut-section'

type PageProps = { params: Promise<{ projectId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const kit = await readKitBags((await params).projectId)
  return { title: kit ? say('Bags of {title}', { title: kit.project.title }) : say('Bags') }
}

export default async function KitBagsPage({ params }: PageProps) {
  const { projectId } = await params
  const [kit, cutting, name, { settings }] = await Promise.all([
    readKitBags(projectId),
    readKitCutting(projectId),
    rememberedName(),
    getViewer(),
  ])
  if (!kit) notFound()
  const { project, master, bags } = kit
  const counts = countBags(bags)
  const here = `/projects/${projectId}/kit`
  const standing = (['sold', 'sealed', 'checked', 'packed', 'open'] as const)
    .filter((status) => counts[status] > 0)
    .map((status) => `${counts[status]} ${bagStatusWords[status]}`)
  return (
    <>
      <PageHead
        title={say('Bags of {title}', { title: project.title })}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: project.title, href: `/projects/${projectId}` },
          { label: say('Kits'), href: here },
          { label: say('Bags') },
        ]}
        byline={say(
          '{copies, plural, one {# kit} other {# kits}}{rest}, of {name}. Cut, pack, let somebody else check, then seal.',
          {
            copies: master.copies,
            rest:
              master.spares > 0
                ? say(', {spares, plural, one {one of them a spare} other {# of them spares}}', { spares: master.spares })
                : '',
            name: project.owner.name,
          },
        )}
        actions={
          <>
            <LinkButton href={`${here}/record`}>{say('Batch record')}</LinkButton>
            <LinkButton href={`${here}/sheets`}>{say('Print sheets')}</LinkButton>
            <LinkButton href={`/labels?one=project.${projectId}`}>{say('Labels')}</LinkButton>
          </>
        }
      >
        {standing.join(', ')}
      </PageHead>
      {master.lines.length === 0 ? (
        <Empty title={say('Nothing goes into these kits yet')}>
          {say('A kit is packed by the threads, cloth and chart of its project, and by what is added on the page of the kits.')}
        </Empty>
      ) : (
        <>
          <ul className={s.tiles} aria-label={say('The bags')}>
            {bags.map((bag) => (
              <li key={bag.number}>
                <BagTile bag={bag} projectId={projectId} />
              </li>
            ))}
          </ul>
          <CutSection kit={kit} cutting={cutting} name={name} settings={settings} />
          <PackSection kit={kit} name={name} />
          <CheckSection kit={kit} />
          <SealSection kit={kit} name={name} />
          <SellSection kit={kit} />
        </>
      )}
    </>
  )
}

function PackSection({ kit, name }: { kit: KitBags; name: string }) {
  const { project, master, bags } = kit
  const ready = bags.filter(({ status, uncut }) => status === 'open' && uncut.length === 0).map(({ number }) => number)
  const needles = sharpsIn(master.lines.flatMap((line) => (line.kind === 'item' ? [line] : [])))
  const isAll = bags.every(({ status }) => status !== 'open')
  return (
    <Section
      title={say('Pack')}
      id="pack"
      note={
        isAll
          ? say('every bag is packed')
          : ready.length === 0
            ? say('cut first')
            : say('{ready} to pack', { ready: ready.length })
      }
    >
      {ready.length > 0 && (
        <Form
          action={stepAction}
          hidden={{ projectId: project.id, step: 'pack' }}
          submit={say('These are packed')}
          submitKind="plain"
        >
          <FieldRow>
            <TextField name="bags" label={say('Bags')} defaultValue={bagsText(ready)} width="half" isRequired />
            <TextField name="by" label={say('Who packs')} defaultValue={name} autoComplete="name" width="half" isRequired />
          </FieldRow>
        </Form>
      )}
      {needles > 0 && (
        <Notice kind="caution" title={say('{needles, plural, one {# needle} other {# needles}} to a kit.', { needles })}>
          {sharpsCaution()}
        </Notice>
      )}
    </Section>
  )
}

function CheckSection({ kit }: { kit: KitBags }) {
  const { project, bags } = kit
  const toCheck = bags.filter(({ status }) => status === 'packed')
  const here = `/projects/${project.id}/kit/bags`
  return (
    <Section
      title={say('Check')}
      id="check"
      note={toCheck.length === 0 ? say('no bag waits to be checked') : say('{toCheck} to check', { toCheck: toCheck.length })}
    >
      <p className={s.quiet}>
        {say(
          'By somebody else than packed them, against the list of what goes in: bag by bag, or one line through all the bags.',
        )}
      </p>
      {toCheck[0] && (
        <p className={s.ends}>
          <LinkButton href={`${here}/${toCheck[0].number}`} kind="first">
            {sayParts('Bag by bag, from bag {number}', { number: toCheck[0].number })}
          </LinkButton>
          <LinkButton href={`${here}/lines`}>{say('Line by line')}</LinkButton>
        </p>
      )}
    </Section>
  )
}

function SealSection({ kit, name }: { kit: KitBags; name: string }) {
  const { project, bags, master } = kit
  const checked = bags.filter(({ status }) => status === 'checked')
  const charts = master.lines.some((line) => line.kind === 'chart' && !line.isFile)
    ? checked.filter(({ isSpare }) => !isSpare).length
    : 0
  const isShort = charts > project.chart.copies || (charts > 0 && project.chart.isOtherOwner)
  return (
    <Section
      title={say('Seal')}
      id="seal"
      note={checked.length === 0 ? say('no bag is checked and open') : say('{checked} to seal', { checked: checked.length })}
    >
      {checked.length > 0 && (
        <>
          <Form
            action={stepAction}
            hidden={{ projectId: project.id, step: 'seal' }}
            submit={say('Seal these')}
            submitKind="plain"
          >
            <FieldRow>
              <TextField
                name="bags"
                label={say('Bags')}
                defaultValue={bagsText(checked.map(({ number }) => number))}
                width="half"
                isRequired
              />
              <TextField name="by" label={say('Who seals')} defaultValue={name} autoComplete="name" width="half" isRequired />
            </FieldRow>
          </Form>
          {charts > 0 && (
            <p className={isShort ? 'do' : s.quiet}>
              {say(
                '{charts, plural, one {# bought chart} other {# bought charts}} {charts, plural, one {goes} other {go}} along; {isOtherOwner}. A spare gets its chart once it is sold.',
                {
                  charts,
                  isOtherOwner: project.chart.isOtherOwner
                    ? say('those on record are another owner’s')
                    : say('{copies} on record', { copies: project.chart.copies }),
                },
              )}
            </p>
          )}
        </>
      )}
    </Section>
  )
}

function SellSection({ kit }: { kit: KitBags }) {
  const { project, bags } = kit
  const sealed = bags.filter(({ status }) => status === 'sealed')
  const first = sealed.find(({ isSpare }) => !isSpare) ?? sealed[0]
  const sold = bags.filter(({ status }) => status === 'sold')
  return (
    <Section
      title={say('Sell')}
      id="sell"
      note={
        sealed.length === 0
          ? sold.length > 0
            ? say('{sold} sold', { sold: sold.length })
            : say('no bag is sealed')
          : say('{sealed} sealed', { sealed: sealed.length })
      }
    >
      {first && (
        <Form
          action={stepAction}
          hidden={{ projectId: project.id, step: 'sell' }}
          submit={say('Sold')}
          submitKind="plain"
          clearsWhenDone
        >
          <FieldRow>
            <TextField name="bags" label={say('Bags')} defaultValue={String(first.number)} width="half" isRequired />
            <TextField
              name="soldTo"
              label={say('To whom')}
              width="half"
              hint={say('Whom to tell, should a lot turn out wrong')}
              autoComplete="off"
            />
          </FieldRow>
        </Form>
      )}
      {sold.length > 0 && (
        <p className={s.quiet}>
          <Link href={`/projects/${project.id}/kit/record`}>{say('Who has which bag')}</Link>
        </p>
      )}
    </Section>
  )
}
