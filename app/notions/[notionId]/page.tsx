import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findNotion, listProjectsFor, type NotionDetail } from '#lib/db/notion/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { toBuy } from '#lib/notion/to-buy'
import { formatPrice } from '#lib/quantity/money'
import { isOut } from '#lib/stock/batch'
import { PlaceLabel } from '#trade/place-label'
import { ButtonRow, LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { dayOf } from '#words/date'
import { reasonSaid } from '#words/journal'
import { notionKindWords, notionTitle, toBuyWords } from '#words/notion'
import { WorthSection } from '../../_worth/worth-section'
import { CountForm, MoveForm, PutBackForm, RemoveDialog, RestoreForm, TakeForm } from '../notion-forms'
import s from '../notions.module.css'
import { describeMovement } from '../words'

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

type PageProps = { params: Promise<{ notionId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const notion = await findNotion((await params).notionId)
  return { title: notion ? notionTitle(notion) : say('Notions') }
}

export default async function NotionPage({ params }: PageProps) {
  const notion = await findNotion((await params).notionId)
  if (!notion) notFound()
  const [places, projects] = await Promise.all([listPlaceOptions(), listProjectsFor(notion.ownerId)])
  const isAway = isOut({ homePlaceId: notion.home?.id ?? null, currentPlaceId: notion.current?.id ?? null })
  return (
    <>
      <PageHead
        title={notionTitle(notion)}
        crumbs={[{ label: say('Notions'), href: '/notions' }, { label: notionTitle(notion) }]}
        byline={say('{one}, from the goods of {ownerName}', {
          one: capital(notionKindWords[notion.kind].one),
          ownerName: notion.ownerName,
        })}
        actions={
          !notion.isGone && (
            <>
              {(isAway || notion.usedBy) && <PutBackForm notion={notion} />}
              <LinkButton href={`/notions/${notion.id}/edit`}>{say('Change it')}</LinkButton>
            </>
          )
        }
      />
      <PrintLine>{sayParts('Notion of {ownerName}', { ownerName: notion.ownerName })}</PrintLine>
      {notion.isGone && (
        <Notice
          kind="done"
          title={say('It is off the list; its history stays.')}
          actions={notion.isRestorable && <RestoreForm notion={notion} />}
        />
      )}
      <Facts items={factsOf(notion)} />
      {!notion.isGone && (
        <Section title={say('Work with it')} id="work">
          <div className={s.forms}>
            {notion.usedBy === null && notion.count > 0 && projects.length > 0 && (
              <Unfold label={say('Take it for a project')}>
                <TakeForm notion={notion} projects={projects} />
              </Unfold>
            )}
            <Unfold label={say('More came in, some were used up, or counted')}>
              <CountForm notion={notion} />
            </Unfold>
            <Unfold label={say('Move it')}>
              <MoveForm notion={notion} placeLabels={places.map(({ label }) => label)} />
            </Unfold>
          </div>
          <ButtonRow>
            <RemoveDialog notion={notion} />
          </ButtonRow>
        </Section>
      )}
      {!notion.isGone && <WorthSection noun="notion" id={notion.id} />}
      <Section title={say('History')}>
        <Ledger
          caption={say('What happened to it, newest first')}
          rows={notion.history}
          rowKey={({ id }) => id}
          isTight
          columns={[
            { key: 'when', head: say('When'), cell: ({ at }) => <span className="nb">{dayOf(at)}</span>, phone: 'side' },
            { key: 'what', head: say('What'), cell: describeMovement, phone: 'lead' },
            {
              key: 'why',
              head: say('Why, or for what'),
              cell: ({ reason, projectTitle }) => (
                <>
                  {reasonSaid(reason, 'cm')}
                  {projectTitle &&
                    sayParts('{rest}for {projectTitle}', {
                      rest: reason && ', ',
                      projectTitle: <span className="title">{projectTitle}</span>,
                    })}
                </>
              ),
            },
          ]}
        />
      </Section>
    </>
  )
}

function factsOf(notion: NotionDetail) {
  const buying = toBuy(notion)
  const { home, current, usedBy, minimum, packOf } = notion
  return [
    {
      label: say('Place'),
      value: current ? (
        <PlaceLabel
          label={current.label}
          href={`/places/${current.id}`}
          livesIn={home && home.id !== current.id ? home.label : undefined}
          note={notion.outSince && say('out since {outSince}', { outSince: dayOf(notion.outSince) })}
        />
      ) : (
        say('no place yet')
      ),
    },
    { label: say('How many'), value: notion.isGone ? null : String(notion.count) },
    {
      label: say('In use for'),
      value: usedBy && (
        <Link href={`/projects/${usedBy.id}`} className="title">
          {usedBy.title}
        </Link>
      ),
    },
    { label: say('For kits'), value: notion.forKits > 0 ? String(notion.forKits) : null },
    { label: say('At least'), value: minimum === null ? null : String(minimum) },
    { label: say('In a pack'), value: packOf === null ? null : String(packOf) },
    { label: say('To buy'), value: !notion.isGone && buying && toBuyWords(buying) },
    { label: say('Price'), value: notion.priceMinor === null ? null : formatPrice(notion.priceMinor, null) },
    { label: say('Note'), value: notion.note },
  ].filter(({ value }) => value !== null && value !== false && value !== '')
}
