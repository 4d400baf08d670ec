import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { openQuestionsOf } from '#lib/db/missing/queries'
import { beyondShown, listLivedHere, listOverflow, readCameFrom } from '#lib/db/place/beyond-place'
import { chartsPerPage, findPlaceContents, type ThingHere } from '#lib/db/place/contents'
import { listOut } from '#lib/db/place/list-out'
import { findBecome, listFormerLabels, listSplitOff, lookUpLabel } from '#lib/db/place/look-up-label'
import { countInPlaces } from '#lib/db/place/place-counts'
import { listPlaces } from '#lib/db/place/queries'
import { readFills } from '#lib/db/place/read-fills'
import { listRecentPlaces } from '#lib/db/place/recent-places'
import { misfit } from '#lib/place/own-patterns'
import { isPeople } from '#lib/place/place'
import { placePath } from '#lib/place/place-tree'
import { PlanFromAbove } from '#trade/plan-from-above'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { midSentence } from '#words/capital'
import { DragGround } from '../../_drag/drag-ground'
import { placesToDropOn } from '../../_drag/dragged'
import { LoansOf } from '../../_loans/loans-of'
import { LabelsBefore, OldLabels } from '../../_places/old-labels'
import { FillShown } from '../fill-shown'
import { CabinetBeside, Furniture } from '../furniture'
import { OutTable } from '../out-table'
import { cellsOf, edgeWords } from '../plan-cells'
import { RemovedNotice } from '../removed-notice'
import { placePageSchema } from '../schema'
import { describeHolding, kindWord, placeTitle } from '../words'
import { Guests } from './guests'
import s from './place.module.css'
import { Elsewhere, InOrder, Things } from './things-here'

/** Past these a place's own page is no list to work through; the page of all places shows every one. */
const outShown = 500

type PageProps = { params: Promise<{ placeId: string }>; searchParams: Promise<Record<string, unknown>> }

async function findPlace(placeId: string) {
  const places = await listPlaces()
  const place = places.find(({ id }) => id === placeId)
  return place ? { place, places } : null
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const found = await findPlace((await params).placeId)
  return { title: found ? placeTitle(found.place) : say('Places') }
}

export default async function PlacePage({ params, searchParams }: PageProps) {
  const { placeId } = await params
  const found = await findPlace(placeId)
  if (!found) {
    const become = await findBecome(placeId)
    if (!become) notFound()
    redirect(`/places/${become.id}?label=${encodeURIComponent(become.oldLabel)}`)
  }
  const { place, places } = found
  const { page, removed, before, label: askedLabel } = placePageSchema.parse(await searchParams)
  const { settings, ownerIds, ownerName } = await getViewer()

  const inside = places.filter(({ parentId }) => parentId === place.id)
  const compartments = inside.filter(({ kind }) => kind === 'compartment')
  const furniture = inside.filter(({ kind }) => kind !== 'compartment')
  const [
    { byPlace, everywhere },
    contents,
    { things: out, total: outCount },
    overflow,
    cameFrom,
    livedHere,
    formerLabels,
    splitOff,
    asked,
    fills,
    lately,
  ] = await Promise.all([
    countInPlaces(ownerIds, places),
    findPlaceContents({ placeIds: [place.id], compartmentsOf: place.id, ownerIds, chartPage: page }),
    listOut({ ownerIds, insidePath: place.path }, { offset: 0, limit: outShown }),
    listOverflow(place.id, ownerIds),
    readCameFrom(place.id, ownerIds),
    before ? listLivedHere(place, ownerIds) : null,
    listFormerLabels(place.id),
    listSplitOff(place.label, place.id),
    askedLabel === undefined ? null : lookUpLabel(askedLabel),
    readFills(places),
    listRecentPlaces(placesToDropOn),
  ])
  const counts = byPlace.get(place.id) ?? everywhere
  const countsOf = (id: string) => byPlace.get(id) ?? everywhere

  const path = placePath(place, new Map(places.map((each) => [each.id, each])))
  const parent = places.find(({ id }) => id === place.parentId)
  const siblings = parent ? places.filter(({ parentId, kind }) => parentId === parent.id && kind === place.kind) : []

  const plan = cellsOf(place, compartments, contents, out)
  const cells = plan?.cells

  const isFromHere = ({ home }: ThingHere) =>
    home !== null && (home.id === place.id || compartments.some(({ id }) => id === home.id))
  const isHere = (thing: ThingHere) => isFromHere(thing) && !thing.isOut
  const turnOf = new Map(places.map(({ id }, at) => [id, at]))
  const turn = ({ home }: ThingHere) => turnOf.get(home?.id ?? '') ?? places.length
  // Threads first as their numbers go, so that what lives in one place is put back in its order.
  const guests: ThingHere[] = [...contents.threads, ...contents.cloth, ...contents.charts, ...contents.notions]
    .filter((thing) => !isFromHere(thing))
    .sort((a, b) => turn(a) - turn(b))
  const inOrder = contents.threads
    .filter((thing) => cells && isFromHere(thing) && (compartments.length === 0 || thing.home?.id !== place.id))
    .sort((a, b) => turn(a) - turn(b))
  const threads = contents.threads.filter(
    (thing) => isHere(thing) && (!cells || (compartments.length > 0 && thing.home?.id === place.id)),
  )
  const cloth = contents.cloth.filter(isHere)
  const charts = contents.charts.filter(isHere)
  const notions = contents.notions.filter(isHere)
  const shownIds = [...inOrder, ...threads, ...guests, ...cloth, ...charts, ...notions].map(({ id }) => id)
  const questions = shownIds.length > 0 ? await openQuestionsOf([...new Set(shownIds)]) : new Map<string, string>()
  const asksHere = new Set(shownIds.filter((id) => questions.has(id))).size
  const fill = fills.get(place.id)
  const unfit = misfit(settings.labelPatterns, place, parent ?? null)
  const isBare = inside.length === 0 && describeHolding(counts) === '' && out.length === 0

  const main: ReactNode = (
    <div className={s.main}>
      {fill && (
        <div className={s.fill}>
          <h2>{say('Fill')}</h2>
          <FillShown fill={fill} />
        </div>
      )}
      {plan && (
        <div className={s.plan}>
          <PlanFromAbove
            label={place.label}
            note={place.name}
            kind={place.kind}
            edge={edgeWords(place.kind)}
            columns={plan.columns}
            cells={plan.cells}
          />
        </div>
      )}
      {inOrder.length > 0 && (
        <Section title={say('In order')} note={say('Left to right, as they lie; what is out keeps its turn.')}>
          <InOrder
            things={inOrder}
            place={place}
            hasCompartments={compartments.length > 0}
            questions={questions}
            settings={settings}
          />
        </Section>
      )}
      {furniture.length > 0 && (
        <Section title={say('Inside it')} note={counted(furniture.length, 'place')}>
          <Furniture
            label={say('Inside {label}', { label: place.label })}
            items={furniture.map((each) => ({
              place: each,
              counts: countsOf(each.id),
              inside: places
                .filter(({ parentId, kind }) => parentId === each.id && kind !== 'compartment')
                .map((front) => ({ place: front, counts: countsOf(front.id) })),
            }))}
          />
        </Section>
      )}
      {contents.projects.length > 0 && (
        <Section title={say('Projects here')}>
          <Ledger
            caption={say('Projects in {label}', { label: place.label })}
            rows={contents.projects}
            rowKey={({ id }) => id}
            rowHref={({ id }) => `/projects/${id}`}
            columns={[
              { key: 'title', head: say('Project'), cell: ({ title }) => <span className="title">{title}</span>, phone: 'lead' },
              { key: 'status', head: say('How far'), cell: ({ status }) => status },
              { key: 'quantity', head: say('How many'), cell: ({ quantity }) => quantity, isNumeric: true, phone: 'side' },
              { key: 'for', head: say('For'), cell: ({ forWhom }) => forWhom ?? '', isAtEnd: true },
            ]}
          />
        </Section>
      )}
      {isPeople(place.kind) && <LoansOf title={say('On loan')} placeId={place.id} />}
      {guests.length > 0 && (
        <Section
          title={say('Here, but lives elsewhere')}
          note={say('{guests, plural, one {# thing} other {# things}}, in the order of the drawers they go back to.', {
            guests: guests.length,
          })}
        >
          <Guests
            things={guests}
            place={place}
            kits={contents.projects}
            cameFrom={cameFrom}
            questions={questions}
            settings={settings}
          />
        </Section>
      )}
      {threads.length > 0 && (
        <Section title={cells ? say('Loose in it') : say('Threads')} note={say('In number order.')}>
          <Things
            things={threads}
            caption={say('Threads in {label}', { label: place.label })}
            questions={questions}
            settings={settings}
          />
        </Section>
      )}
      {cloth.length > 0 && (
        <Section title={say('Cloth')} note={counted(cloth.length, 'piece')}>
          <Things
            things={cloth}
            caption={say('Cloth in {label}', { label: place.label })}
            questions={questions}
            settings={settings}
          />
        </Section>
      )}
      {notions.length > 0 && (
        <Section
          title={say('Notions')}
          note={say('By kind and size.')}
          actions={<Link href="/notions">{say('All notions')}</Link>}
        >
          <Things
            things={notions}
            caption={say('Notions in {label}', { label: place.label })}
            questions={questions}
            settings={settings}
          />
        </Section>
      )}
      {charts.length > 0 && (
        <Section title={say('Charts')} note={say('By title.')}>
          <Things
            things={charts}
            caption={say('Charts in {label}', { label: place.label })}
            questions={questions}
            settings={settings}
          />
          {contents.chartCount > chartsPerPage && (
            <Pager
              page={page}
              pages={Math.ceil(contents.chartCount / chartsPerPage)}
              hrefForPage={(to) => `/places/${place.id}?page=${to}`}
              shown={say('{page} to {min} of {chartCount}', {
                page: (page - 1) * chartsPerPage + 1,
                min: Math.min(page * chartsPerPage, contents.chartCount),
                chartCount: contents.chartCount,
              })}
            />
          )}
        </Section>
      )}
      {out.length > 0 && (
        <Section
          id="out"
          title={say('Out of {rest}', {
            rest:
              place.kind === 'person'
                ? say('here')
                : say('this {midSentence}', { midSentence: midSentence(kindWord(place.kind)) }),
          })}
          note={
            outCount > out.length
              ? say('The {out} of {outCount} that have been out longest.', { out: out.length, outCount })
              : cells
                ? say('A tag stands in each gap.')
                : say('Out longest first.')
          }
        >
          <OutTable things={out} caption={say('Out of {label}', { label: place.label })} now={new Date()} settings={settings} />
        </Section>
      )}
      {overflow.length > 0 && (
        <Section
          title={fill && fill.fill.filled >= fill.fill.whole ? say('It is full: the overflow') : say('More of these elsewhere')}
          id="overflow"
          note={
            overflow.length === beyondShown ? say('The first {beyondShown}.', { beyondShown }) : say('Living in other places.')
          }
        >
          <Elsewhere
            things={overflow}
            caption={say('More of what lives in {label}, living elsewhere', { label: place.label })}
            settings={settings}
          />
        </Section>
      )}
      {livedHere && (
        <Section title={say('Lived here before')} id="before" note={say('What an old label on this place may still say.')}>
          {livedHere.length === 0 ? (
            <p className="quiet">{say('No thread that lives elsewhere now is known to have lived here.')}</p>
          ) : (
            <Elsewhere
              things={livedHere}
              caption={say('Thread that lived in {label} before', { label: place.label })}
              settings={settings}
              untilOf={(thing) => livedHere.find(({ id }) => id === thing.id)?.until ?? null}
            />
          )}
        </Section>
      )}
      {!isBare && <DragGround places={lately.filter(({ id }) => id !== place.id)} fromPlaceId={place.id} />}
      {isBare && (
        <Empty
          title={say('Nothing in it')}
          actions={<LinkButton href={`/places/new?inside=${place.id}`}>{say('Add a place inside')}</LinkButton>}
        >
          {contents.othersCount > 0
            ? say('Nothing of {ownerName} is here or lives here.', { ownerName })
            : say('Threads, cloth, charts and notions come here when this label is given as their place.')}
        </Empty>
      )}
      {contents.othersCount > 0 && (
        <p className={s.note}>
          {say(
            '{othersCount, plural, one {# thing} other {# things}} of other owners {othersCount, plural, one {lies or lives} other {lie or live}} here too, not shown.',
            { othersCount: contents.othersCount },
          )}
        </p>
      )}
    </div>
  )

  return (
    <>
      <PageHead
        title={placeTitle(place)}
        crumbs={[
          { label: say('Places'), href: '/places' },
          ...path.slice(0, -1).map(({ id, label }) => ({ label, href: `/places/${id}` })),
          { label: place.label },
        ]}
        byline={[
          place.name,
          describeHolding(counts) && say('{describeHolding} here', { describeHolding: describeHolding(counts) }),
        ]
          .filter(Boolean)
          .join('. ')}
        actions={
          <>
            <LinkButton href={`/places/new?inside=${place.id}`}>{say('Add a place inside')}</LinkButton>
            {guests.some(({ id }) => !questions.has(id)) && !isPeople(place.kind) && place.kind !== 'not found' && (
              <LinkButton href={`/places/${place.id}/unpack`}>{say('Unpack it')}</LinkButton>
            )}
            <LinkButton href={`/count?place=${place.id}#begin`}>{say('Count it')}</LinkButton>
            <LinkButton href={`/labels?place=${place.id}`}>{say('Labels')}</LinkButton>
            <LinkButton href={`/places/${place.id}/edit`}>{say('Change it')}</LinkButton>
          </>
        }
      >
        <p className={s.marks}>
          {out.length > 0 && <a href="#out">{sayParts('{out} out', { out: counts.out })}</a>}
          {asksHere > 0 && (
            <Link href="/missing" className="do">
              {sayParts('{asksHere} being looked for', { asksHere })}
            </Link>
          )}
          {overflow.length > 0 && (
            <a href="#overflow">
              {say('{overflow, plural, one {# batch} other {# batches}} of these elsewhere', { overflow: overflow.length })}
            </a>
          )}
          {contents.threads.length > 0 && (
            <Link href={`/threads?place=${place.id}`}>{say('Its threads by colour and stock')}</Link>
          )}
          {!before && <Link href={`/places/${place.id}?before=1#before`}>{say('What lived here before')}</Link>}
        </p>
        {place.note && <p className={s.note}>{place.note}</p>}
        {unfit !== null && (
          <p className={s.note}>
            {sayParts('Its label does not fit the pattern kept for here, {unfit}. That is no harm; it only tells.', { unfit })}
          </p>
        )}
        <LabelsBefore former={formerLabels} splitOff={splitOff} />
      </PageHead>
      <PrintLine>
        {ownerName}: {path.map(({ label }) => label).join(' › ')}
      </PrintLine>
      <RemovedNotice placeId={removed} />
      {asked && <OldLabels lookUp={asked} />}
      {parent && siblings.length > 1 ? (
        <div className={s.columns}>
          <CabinetBeside parent={parent} siblings={siblings} currentId={place.id} />
          {main}
        </div>
      ) : (
        main
      )}
    </>
  )
}
