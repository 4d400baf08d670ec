import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Owner } from '#lib/db/owner/owners'
import { readReorderCheck } from '#lib/db/reorder/reorder-check'
import { findRule, type KeptRule } from '#lib/db/reorder/rules'
import { readWeeklySales } from '#lib/db/reorder/use-figures'
import { findThread, type ThreadPage } from '#lib/db/thread/find-thread'
import { defaultCoverWeeks, lotsMinimumPutUps, type ReorderRule, type RuleSource } from '#lib/stock/reorder'
import type { WeeklySales } from '#lib/stock/weekly-sales'
import { NobodyOwns } from '#trade/nobody-owns'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { ChoiceField, FieldRow, NumberField } from '#ui/field'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, plural } from '#words/amounts'
import { threadTitle } from '#words/thread'
import { removeRuleAction, saveRuleAction } from './actions'
import { inHundredths } from './words'

export const generateMetadata = (): Metadata => ({ title: say('When to buy again') })

type ReorderPageProps = {
  params: Promise<{ threadId: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

export default async function ReorderPage({ params, searchParams }: ReorderPageProps) {
  const [{ threadId }, { owner: asked, sales: takesSales, saved }] = await Promise.all([params, searchParams])
  const { owners, ownerIds } = await getViewer()
  const thread = await findThread(threadId, { ownerIds })
  if (!thread) notFound()
  const title = threadTitle(thread)
  const owner = owners.find(({ id }) => id === asked) ?? owners.find(({ id }) => id === ownerIds[0])
  const head = (
    <PageHead
      title={say('When to buy {title} again', { title })}
      crumbs={[
        { label: say('Threads'), href: '/threads' },
        { label: title, href: `/threads/${threadId}` },
        { label: say('When to buy') },
      ]}
      byline={
        owner &&
        say('For the stock of {name}. Kits are promised their thread beforehand, so only counter sales are reckoned with.', {
          name: owner.name,
        })
      }
    />
  )
  if (!owner) {
    return (
      <>
        {head}
        <NobodyOwns>{say('A rule is for somebody’s stock.')}</NobodyOwns>
      </>
    )
  }
  const now = new Date()
  const [kept, sales, checks] = await Promise.all([
    findRule(threadId, owner.id),
    readWeeklySales({ threadId, ownerId: owner.id, putUpStrandTenths: thread.line.putUpStrandTenths, now }),
    readReorderCheck({ ownerIds: [owner.id], threadId, now }),
  ])
  const check = checks[0]?.check
  return (
    <>
      {head}
      {owners.length > 1 && (
        <p>
          {owners.map(({ id, name }) =>
            id === owner.id ? (
              <b key={id}>{name} </b>
            ) : (
              <LinkButton key={id} kind="quiet" href={`/threads/${threadId}/reorder?owner=${id}`}>
                {name}
              </LinkButton>
            ),
          )}
        </p>
      )}
      {saved === '1' && kept && (
        <Notice
          kind="done"
          title={say('The rule is set.')}
          actions={<LinkButton href="/buy/minimum">{say('What is below its minimum')}</LinkButton>}
        />
      )}
      {check && (
        <p>
          {sayParts('{isDue} {positionPutUps} free or on order; {rest}, {source}.', {
            isDue: (
              <strong>
                {check.isDue
                  ? say('Buy {counted}.', { counted: counted(check.orderPutUps, thread.line.putUpWord) })
                  : say('Nothing to buy yet.')}
              </strong>
            ),
            positionPutUps: check.positionPutUps,
            rest:
              check.rule.kind === 'point'
                ? say('bought at {thresholdPutUps}', { thresholdPutUps: check.thresholdPutUps })
                : say('bought below {thresholdPutUps}', { thresholdPutUps: check.thresholdPutUps }),
            source: sourceWords[check.source],
          })}
        </p>
      )}
      <SalesOffer sales={sales} thread={thread} owner={owner} isTaken={takesSales === '1'} />
      <RuleForm
        // Drawn anew when the figures offered are taken over: what stands in a box is otherwise the person's.
        key={`${owner.id} ${kept?.version ?? 'none'} ${String(takesSales)}`}
        thread={thread}
        owner={owner}
        kept={kept}
        sales={takesSales === '1' ? sales : null}
        source={check?.source ?? null}
      />
    </>
  )
}

const sourceWords: Record<RuleSource, string> = sayings({
  owner: 'by the rule below',
  thread: 'by the number to keep that stands with the thread',
  lots: 'by the usual two of a line whose lots matter',
})

type SalesOfferProps = { sales: WeeklySales | null; thread: ThreadPage; owner: Owner; isTaken: boolean }

/** What the journal says was sold, offered and never taken over unasked. */
function SalesOffer({ sales, thread, owner, isTaken }: SalesOfferProps) {
  const { putUpWord } = thread.line
  return (
    <Section title={say('Sold over the counter')}>
      {sales === null ? (
        <p className="quiet">
          {say(
            'The journal has too little to go by: uses without a project, or with “sold” as their reason, over four weeks at least.',
          )}
        </p>
      ) : (
        <p>
          {sayParts(
            'Last {weeks, plural, one {# week} other {# weeks}}: {inHundredths} {plural} a week, spread {inHundredths2}, {counted} in all.',
            {
              weeks: sales.weeks,
              inHundredths: inHundredths(sales.demandHundredths),
              plural: plural(putUpWord),
              inHundredths2: inHundredths(sales.spreadHundredths),
              counted: counted(Number(sales.soldPutUps.toFixed(2)), putUpWord),
            },
          )}{' '}
          {isTaken ? (
            say('They stand in the form below; nothing is kept until you save it.')
          ) : (
            <LinkButton kind="quiet" href={`/threads/${thread.id}/reorder?owner=${owner.id}&sales=1`} scroll={false}>
              {say('Use these')}
            </LinkButton>
          )}
        </p>
      )}
    </Section>
  )
}

type RuleFormProps = {
  thread: ThreadPage
  owner: Owner
  kept: KeptRule | null
  /** To be filled in for what the rule says. */
  sales: WeeklySales | null
  source: RuleSource | null
}

function RuleForm({ thread, owner, kept, sales, source }: RuleFormProps) {
  const { line, minimumPutUps } = thread
  const rule: ReorderRule | null = kept?.rule ?? null
  const point = rule?.kind === 'point' ? rule : null
  const one = line.putUpWord
  const usual = minimumPutUps ?? (line.lotsMatter ? lotsMinimumPutUps : null)
  const hidden = { threadId: thread.id, ownerId: owner.id }
  return (
    <Section title={say('The rule')} note={kept ? undefined : source === null ? say('None yet.') : say('None of its own yet.')}>
      <Form
        label={say('When to buy again')}
        action={saveRuleAction}
        submit={say('Save the rule')}
        hidden={{ ...hidden, version: kept ? String(kept.version) : '' }}
        actions={
          kept && (
            <ConfirmDialog
              opener={say('Take the rule away')}
              openerKind="quiet"
              title={say('Take this rule away?')}
              confirm={say('Take it away')}
              action={removeRuleAction}
              hidden={{ ...hidden, version: String(kept.version) }}
            >
              <p>
                {minimumPutUps === null
                  ? say('The thread then has no number of its own to keep.')
                  : say('The number that stands with the thread, {minimumPutUps}, counts again.', { minimumPutUps })}
              </p>
            </ConfirmDialog>
          )
        }
      >
        <ChoiceField
          name="kind"
          label={say('Go by')}
          defaultValue={sales ? 'point' : (rule?.kind ?? (line.lotsMatter || owner.kind !== 'shop' ? 'minimum' : 'point'))}
          options={[
            { value: 'minimum', label: say('a number to keep'), note: say('for thread that sells slowly, hand-dyed above all') },
            {
              value: 'point',
              label: say('what is sold in a week'),
              note: say('for thread that goes over the counter week after week'),
            },
          ]}
        />
        <NumberField
          name="minimumPutUps"
          label={say('Keep so many {plural}', { plural: plural(one) })}
          isWhole
          unit={plural(one)}
          defaultValue={rule?.kind === 'minimum' ? rule.minimumPutUps : (usual ?? '')}
          hint={say('Buy as soon as fewer are free. Only for a number to keep.')}
        />
        <FieldRow>
          <NumberField
            name="demandHundredths"
            label={say('Sold in a week')}
            defaultValue={sales ? inHundredths(sales.demandHundredths) : point ? inHundredths(point.demandHundredths) : ''}
            hint={say('On average, over the counter.')}
          />
          <NumberField
            name="spreadHundredths"
            label={say('Spread')}
            defaultValue={sales ? inHundredths(sales.spreadHundredths) : point ? inHundredths(point.spreadHundredths) : ''}
            hint={say('How far a week usually is from that.')}
          />
          <NumberField
            name="leadWeeks"
            label={say('An order takes')}
            isWhole
            unit={say('weeks')}
            defaultValue={point?.leadWeeks ?? ''}
            hint={say('A hand-dyer’s often takes 4 to 8.')}
          />
          <NumberField
            name="coverWeeks"
            label={say('Buy enough for')}
            isWhole
            unit={say('weeks more')}
            defaultValue={point?.coverWeeks ?? defaultCoverWeeks}
          />
        </FieldRow>
        <NumberField
          name="packPutUps"
          label={say('{replace} in a box', { replace: plural(one).replace(/^./, (first) => first.toUpperCase()) })}
          isWhole
          defaultValue={rule?.packPutUps ?? 1}
          hint={say('As it is sold to you; only whole boxes are ordered.')}
        />
      </Form>
    </Section>
  )
}
