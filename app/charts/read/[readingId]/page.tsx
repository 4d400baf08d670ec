import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { listChartOptions } from '#lib/db/chart/queries'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { findSameFile } from '#lib/db/file/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { findReadingChange } from '#lib/db/reading/reading-change'
import { findReading } from '#lib/db/reading/reading-jobs'
import { findStagedReading, listStagedReadings, type StagedReading } from '#lib/db/reading/reading-store'
import { listLines } from '#lib/db/thread/list-lines'
import { usualListName } from '#lib/importing/check-lists'
import { TrayWord } from '#trade/tray'
import { ButtonRow, LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer, type Viewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { listStateWords } from '#words/cover'
import { putUpText } from '../../../_charts/design-text'
import { dropReadingAction, readAgainAction, undoSavedReadingAction } from '../../../_reading/actions'
import { shownReview, shownSource } from '../../../_reading/review-shown'
import { cutShortWords, describeReadingRefusal, progressWords } from '../../../_reading/words'
import { JobProgress } from './job-progress'
import { offerDesigns } from './offer-designs'
import s from './review.module.css'
import { ReviewDesk } from './review-desk'
import { SaveForm, type SaveFormProps } from './save-form'

type PageProps = { params: Promise<{ readingId: string }> }

export const generateMetadata = (): Metadata => ({ title: say('Read a key') })

const usualPutUpTenths = 80_000

export default async function ReadingPage({ params }: PageProps) {
  const viewer = await getViewer()
  const staged = await findStagedReading((await params).readingId, viewer.ownerIds)
  if (!staged) notFound()
  const { state, name, source } = staged
  const same = source.kind === 'text' || state.kind === 'saved' ? null : await findSameFile(source.sha256, viewer.ownerIds)
  const together = (await listStagedReadings(viewer.ownerIds)).filter((one) => one.groupId === staged.groupId)
  const last = Math.max(...together.map((one) => one.position))
  const next = together.find((one) => one.position > staged.position && one.state.kind === 'read')
  return (
    <>
      <PageHead
        title={name}
        crumbs={[{ label: say('Charts'), href: '/charts' }, { label: say('Read a key'), href: '/charts/read' }, { label: name }]}
        note={last > 0 && say('{position} of {last}', { position: staged.position + 1, last: last + 1 })}
        byline={
          staged.wasPhotographed
            ? say('Read from a picture: look twice at figures.')
            : source.kind === 'pdf'
              ? say('Read from {rest}.', {
                  rest: staged.pageCount === null ? say('its pages') : counted(staged.pageCount, 'page'),
                })
              : undefined
        }
        actions={
          state.kind !== 'saved' && (
            <>
              {next && <LinkButton href={`/charts/read/${next.id}`}>{sayParts('Next: {name}', { name: next.name })}</LinkButton>}
              <DropReading staged={staged} />
            </>
          )
        }
      />
      {same?.chartId && (
        <Notice
          kind="caution"
          title={say('You have this very file already')}
          actions={<LinkButton href={`/charts/${same.chartId}`}>{same.chartTitle}</LinkButton>}
        >
          {sayParts('It is kept as {name} with the chart {chartTitle}.', { name: same.name, chartTitle: same.chartTitle })}
        </Notice>
      )}
      <Standing staged={staged} viewer={viewer} />
    </>
  )
}

async function Standing({ staged, viewer }: { staged: StagedReading; viewer: Viewer }) {
  const { state, id } = staged
  switch (state.kind) {
    case 'waiting':
      return <UnderWay id={id} first={progressWords({ step: 'waiting' })} />
    case 'reading': {
      const job = await findReading(state.jobId)
      if (!job) return <NotRead staged={staged} viewer={viewer} why={cutShortWords()} />
      return <UnderWay id={id} first={progressWords(job.progress)} />
    }
    case 'refused':
      return <NotRead staged={staged} viewer={viewer} why={describeReadingRefusal(state.refusal)} />
    case 'read':
      return <UnderReview staged={staged} viewer={viewer} />
    case 'saved':
      return <Saved staged={staged} state={state} viewer={viewer} />
  }
}

function UnderWay({ id, first }: { id: string; first: ReturnType<typeof progressWords> }) {
  return (
    <>
      <JobProgress readingId={id} first={first} />
      <p className="quiet">{say('This page may be left; the reading goes on, and is found again under Read a key.')}</p>
      <noscript>
        <meta httpEquiv="refresh" content="2" />
      </noscript>
    </>
  )
}

async function NotRead({ staged, viewer, why }: { staged: StagedReading; viewer: Viewer; why: ReactNode }) {
  const isFile = staged.source.kind !== 'text'
  return (
    <>
      <Notice
        kind="refusal"
        title={say('Not read')}
        actions={
          isFile && (
            <Form
              action={readAgainAction}
              hidden={{ readingId: staged.id }}
              submit={say('Read it again')}
              submitKind="plain"
              isInline
            />
          )
        }
      >
        {why}
      </Notice>
      {isFile && (
        <Section
          title={say('Keep it without its key')}
          id="save"
          note={say('Its thread list can be typed, or read, another time.')}
        >
          <SaveForm
            {...(await saveProps(staged, viewer))}
            shown={{
              ...{ id: staged.id, version: staged.version, canUndo: false, lessons: [], dismissed: [], threads: {} },
              reading: { designs: [], unread: [] },
            }}
          />
        </Section>
      )}
    </>
  )
}

async function UnderReview({ staged, viewer }: { staged: StagedReading; viewer: Viewer }) {
  const { settings } = viewer
  const [shown, source, save, lines] = await Promise.all([
    shownReview(staged),
    shownSource(staged),
    saveProps(staged, viewer),
    listLines(),
  ])
  const distinct = (names: readonly string[]) => [...new Set(names)].filter((one) => one !== '')
  return (
    <ReviewDesk
      first={shown}
      source={source}
      units={{ thread: settings.threadUnit, cloth: settings.lengthUnit }}
      makerNames={distinct(lines.map(({ makerName }) => makerName))}
      lineNames={distinct(lines.map(({ name }) => name))}
      save={save}
    />
  )
}

async function saveProps(staged: StagedReading, { owners, settings }: Viewer): Promise<SaveFormProps> {
  const [options, places, lines, offered] = await Promise.all([
    listChartOptions(),
    listPlaceOptions(),
    listLines(),
    offerDesigns(staged),
  ])
  const { source, name, hasCover, ownerId, designId } = staged
  return {
    ...{ owners, ownerId, designId, offered, usualListName, currency: settings.currency },
    designerNames: options.designers,
    placeLabels: places.map(({ label }) => label),
    putUpText: putUpText(usualPutUpTenths, settings.threadUnit),
    file: source.kind === 'text' ? null : { name, hasCover, isPhoto: source.kind === 'picture' },
    lines: lines.map(({ makerName, name: lineName }) => ({ makerName, name: lineName })),
  }
}

type SavedState = Extract<StagedReading['state'], { kind: 'saved' }>

async function Saved({ staged, state, viewer }: { staged: StagedReading; state: SavedState; viewer: Viewer }) {
  const [answers, change, others, details] = await Promise.all([
    getAnswers(),
    findReadingChange(state.changeId),
    listStagedReadings(viewer.ownerIds),
    Promise.all(state.designIds.map(findDesign)),
  ])
  const designs = details.flatMap((detail) => {
    const coverage = detail && coverageOfDesign(answers, detail, { ownerIds: viewer.ownerIds })
    return detail && coverage ? [{ detail, coverage }] : []
  })
  type Row = {
    detail: (typeof designs)[number]['detail']
    list: (typeof designs)[number]['coverage']['comparison'][number] | null
  }
  const rows = designs.flatMap(({ detail, coverage: { comparison } }): Row[] =>
    comparison.length === 0 ? [{ detail, list: null }] : comparison.map((list) => ({ detail, list })),
  )
  const next = others.find(({ id, state: other }) => id !== staged.id && (other.kind === 'read' || other.kind === 'refused'))
  return (
    <>
      <Notice
        kind="done"
        title={say('Saved: {lineCount, plural, one {# line} other {# lines}}', { lineCount: state.lineCount })}
        actions={
          change &&
          !change.isUndone && (
            <Form
              action={undoSavedReadingAction}
              hidden={{ changeId: state.changeId }}
              submit={say('Undo: take it back')}
              submitKind="plain"
              isInline
            />
          )
        }
      >
        {state.leftOut > 0
          ? say(
              '{leftOut, plural, one {# line} other {# lines}} {leftOut, plural, one {was} other {were}} left out, and the list is marked as not whole.',
              { leftOut: state.leftOut },
            )
          : say('Nothing was left out.')}
      </Notice>
      <Section title={designs.length === 1 ? say('Can it be stitched?') : say('Can they be stitched?')} id="designs">
        <Ledger
          caption={say('The designs saved, and how far the stock goes')}
          rows={rows}
          rowKey={({ detail, list }) => list?.listId ?? detail.design.id}
          columns={[
            {
              key: 'design',
              head: say('Design'),
              phone: 'lead',
              cell: ({ detail }) => (
                <Link className="title" href={`/designs/${detail.design.id}`}>
                  {detail.design.title}
                </Link>
              ),
            },
            { key: 'list', head: say('List'), cell: ({ list }) => list?.name ?? say('no thread list') },
            {
              key: 'cover',
              head: say('Cover'),
              phone: 'line',
              cell: ({ list }) => {
                if (!list) return ''
                const { state: tray, word, note } = listStateWords(list.cover)
                return <TrayWord state={tray} word={word} note={note} />
              },
            },
          ]}
        />
      </Section>
      <div className={s.savedActs}>
        <ButtonRow>
          {next && (
            <LinkButton kind="first" href={`/charts/read/${next.id}`}>
              {sayParts('Next: {name}', { name: next.name })}
            </LinkButton>
          )}
          {designs[0] && (
            <LinkButton kind={next ? 'plain' : 'first'} href={`/designs/${designs[0].detail.design.id}`}>
              {say('To the design')}
            </LinkButton>
          )}
          <LinkButton href={`/charts/${state.chartId}`}>{say('To the chart')}</LinkButton>
          <LinkButton href="/charts/read">{say('Read another key')}</LinkButton>
        </ButtonRow>
      </div>
    </>
  )
}

function DropReading({ staged }: { staged: StagedReading }) {
  return (
    <ConfirmDialog
      opener={say('Throw it away')}
      title={say('Throw away the reading of {name}?', { name: staged.name })}
      confirm={say('Throw it away')}
      action={dropReadingAction}
      hidden={{ readingId: staged.id }}
    >
      <p>{say('What was read and corrected is lost. Nothing in the larder changes.')}</p>
    </ConfirmDialog>
  )
}
