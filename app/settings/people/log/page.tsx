import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listAccounts } from '#lib/db/access/accounts'
import { type AuditLine, findChange, findJournalled, listAudit } from '#lib/db/access/list-audit'
import { requireRight } from '#lib/db/access/right'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripDay, StripSelect } from '#ui/form-strip'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { auditKindWords, auditWords, doerWords } from '#words/audit'
import { momentWords } from '#words/date'
import { ChangeSection } from './change-section'
import { auditFilterOf, logHref } from './filter'
import { type LogQuery, logQuerySchema, unknownPerson } from './schema'

export const generateMetadata = (): Metadata => ({ title: say('Who did what') })

const perPage = 50

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function LogPage({ searchParams }: Props) {
  requireRight('keep')
  const query = logQuerySchema.parse(await searchParams)
  const [accounts, { lines, total }, change] = await Promise.all([
    listAccounts(),
    listAudit(auditFilterOf(query), { offset: (query.page - 1) * perPage, limit: perPage }),
    query.change === undefined ? undefined : findChange(query.change),
  ])
  const journalled = await findJournalled(lines.flatMap(({ revision }) => (revision === null ? [] : [revision])))
  const pages = Math.max(1, Math.ceil(total / perPage))
  const from = (query.page - 1) * perPage
  const isNarrowed = query.person !== '' || query.day !== ''
  const people = [
    ...accounts.map(({ id, name, closedAt }) => ({ value: id, label: closedAt ? say('{name} (closed)', { name }) : name })),
    { value: unknownPerson, label: say('nobody known') },
  ]
  const personName = people.find(({ value }) => value === query.person)?.label ?? 'everybody'
  const shown = `${personName}, ${query.day ? formatDate(query.day) : say('any day')}`
  return (
    <>
      <PageHead
        title={say('Who did what')}
        crumbs={[
          { label: say('Settings'), href: '/settings' },
          { label: say('People'), href: '/settings/people' },
        ]}
        byline={say(
          'Who signed in or was refused, what was done to accounts, and who made each change. Nothing is ever taken off it.',
        )}
        actions={
          total > 0 && (
            <LinkButton download href={logHref({ person: query.person, day: query.day }, '/settings/people/log/log.csv')}>
              {say('As a CSV file')}
            </LinkButton>
          )
        }
      />
      {change !== undefined &&
        (change === null ? (
          <Notice kind="caution" title={say('Nothing is known of change {change}', { change: query.change })}>
            {say('It has no line here and none in the journal.')}
          </Notice>
        ) : (
          <ChangeSection change={change} />
        ))}
      <FormStrip
        action="/settings/people/log"
        label={say('Choose which lines to show')}
        summary={isNarrowed ? say('Showing {shown}', { shown }) : say('Everybody, any day')}
        clear={isNarrowed ? { href: '/settings/people/log', label: say('Show all') } : undefined}
      >
        <StripSelect name="person" label={say('Person')} value={query.person} options={people} any={say('everybody')} />
        <StripDay name="day" label={say('Day')} value={query.day} />
      </FormStrip>
      {lines.length === 0 ? (
        <Nothing query={query} total={total} isNarrowed={isNarrowed} hasAccounts={accounts.length > 0} />
      ) : (
        <>
          <Ledger
            caption={say('Who did what, the latest first')}
            columns={columnsFor(query, journalled)}
            rows={lines}
            rowKey={({ id }) => id}
          />
          <Pager
            page={query.page}
            pages={pages}
            hrefForPage={(page) => logHref({ ...query, page, change: undefined })}
            shown={say('{from, number} to {from2, number} of {total, number}', {
              from: from + 1,
              from2: from + lines.length,
              total,
            })}
          />
        </>
      )}
    </>
  )
}

type NothingProps = { query: LogQuery; total: number; isNarrowed: boolean; hasAccounts: boolean }

function Nothing({ query, total, isNarrowed, hasAccounts }: NothingProps) {
  if (total > 0)
    return (
      <Empty
        title={say('The log does not go on so far')}
        actions={<LinkButton href={logHref({ ...query, page: 1 })}>{say('To its first page')}</LinkButton>}
      >
        {say('There are fewer pages than that.')}
      </Empty>
    )
  if (isNarrowed)
    return (
      <Empty title={say('Nothing of that')} actions={<LinkButton href="/settings/people/log">{say('Show all')}</LinkButton>}>
        {say('Nobody chosen here did anything on that day.')}
      </Empty>
    )
  return (
    <Empty title={say('Nothing yet')} actions={!hasAccounts && <LinkButton href="/settings/people">{say('People')}</LinkButton>}>
      {say('Once people sign in, each sign-in and each change stands here with whose it was.')}
    </Empty>
  )
}

const columnsFor = (query: LogQuery, journalled: ReadonlySet<number>): readonly Column<AuditLine>[] => [
  {
    key: 'at',
    head: say('When'),
    phone: 'side',
    width: '15rem',
    cell: ({ at }) => <span className="nb">{momentWords(at)}</span>,
  },
  { key: 'who', head: say('Who'), phone: 'lead', width: '20%', cell: (line) => doerWords(line) },
  {
    key: 'what',
    head: say('What'),
    phone: 'wide',
    cell: (line) => {
      const { revision } = line
      return (
        <>
          <b>{auditKindWords[line.kind]}</b>. {auditWords(line)}
          {revision !== null &&
            sayParts(', <link>change {revision, number}{hasHas, select, yes {, with its journal} other {}}</link>', {
              link: (words) => <Link href={`${logHref({ ...query, change: revision })}#change`}>{words}</Link>,
              revision,
              hasHas: Boolean(journalled.has(revision)),
            })}
        </>
      )
    },
  },
  { key: 'from', head: say('From'), phone: 'line', isAtEnd: true, cell: ({ address }) => <span className="nb">{address}</span> },
]
