import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type CutPlanListed, listCutPlans } from '#lib/db/cut-plan/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { dayOf } from '#words/date'
import type { Fields } from './choices'
import { statusWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Plans of cuts') })

type PageProps = { searchParams: Promise<Fields> }

export default async function CutPlansPage({ searchParams }: PageProps) {
  const fields = await searchParams
  // A link that names what is to be cut leads straight to the form.
  const named = (['design', 'project', 'piece', 'size'] as const).flatMap((name) =>
    [fields[name] ?? []].flat().map((value): [string, string] => [name, value]),
  )
  if (named.length > 0) redirect(`/cloth/cut/new?${new URLSearchParams(named)}`)
  const { ownerIds, ownerName } = await getViewer()
  const plans = await listCutPlans(ownerIds)
  const kept = plans.filter(({ status }) => status === 'kept')
  const closed = plans.filter(({ status }) => status !== 'kept')
  return (
    <>
      <PageHead
        title={say('Plans of cuts')}
        crumbs={[{ label: say('Cloth'), href: '/cloth' }, { label: say('Plans of cuts') }]}
        byline={say('What is to be cut from which piece, worked out so that as much as can be is left in one piece.')}
        actions={
          <LinkButton kind="first" href="/cloth/cut/new">
            {say('Plan a cut')}
          </LinkButton>
        }
      />
      <PrintLine>{sayParts('Plans of cuts, cloth of {ownerName}', { ownerName })}</PrintLine>
      {plans.length === 0 ? (
        <Empty
          title={say('No plan is kept yet')}
          actions={
            <LinkButton kind="first" href="/cloth/cut/new">
              {say('Plan a cut')}
            </LinkButton>
          }
        >
          {say(
            'Name the designs, kits or sizes to cut. The plan shows each piece to scale with its cuts in order, and sets the pieces aside until they are cut.',
          )}
        </Empty>
      ) : (
        <>
          <Section title={say('To be cut')} note={kept.length > 0 && counted(kept.length, 'plan')}>
            {kept.length === 0 ? (
              <p className="quiet">{say('None. Pieces are set aside only for plans that stand here.')}</p>
            ) : (
              <Plans plans={kept} />
            )}
          </Section>
          {closed.length > 0 && (
            <Section title={say('Carried out and given up')}>
              <Plans plans={closed} />
            </Section>
          )}
        </>
      )}
    </>
  )
}

function Plans({ plans }: { plans: readonly CutPlanListed[] }) {
  return (
    <Ledger
      caption={say('Plans of cuts, the newest first')}
      rows={plans}
      rowKey={({ id }) => id}
      rowHref={({ id }) => `/cloth/cut/${id}`}
      columns={[
        { key: 'title', head: say('For'), phone: 'lead', cell: ({ title }) => <b>{title}</b> },
        {
          key: 'pieces',
          head: say('Pieces'),
          phone: 'line',
          cell: ({ pieces }) => listed(pieces.map(({ label, name }) => label ?? name)),
        },
        {
          key: 'status',
          head: say('Standing'),
          phone: 'line',
          cell: ({ status, closedAt }) => `${statusWords[status]}${closedAt ? `, ${dayOf(closedAt)}` : ''}`,
        },
        {
          key: 'made',
          head: say('Made'),
          phone: 'side',
          isAtEnd: true,
          cell: ({ createdAt }) => <span className="nb">{dayOf(createdAt)}</span>,
        },
      ]}
    />
  )
}
