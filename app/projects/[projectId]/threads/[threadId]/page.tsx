import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type BatchChoice, readBatchChoices } from '#lib/db/project/batch-choices'
import { findProject } from '#lib/db/project/queries'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { threadLength } from '#words/amounts'
import { heldWords } from '#words/stock'
import { threadName } from '#words/thread'
import { giveBackAction, promiseBatchAction } from '../../../actions'
import s from '../../project.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Choose the stock') })

type ChooseStockPageProps = { params: Promise<{ projectId: string; threadId: string }> }

/** Which stock of one thread a project is promised, batch by batch and by hand. */
export default async function ChooseStockPage({ params }: ChooseStockPageProps) {
  const { projectId, threadId } = await params
  const [{ settings }, project, choices] = await Promise.all([
    getViewer(),
    findProject(projectId),
    readBatchChoices(projectId, threadId),
  ])
  if (!project || !choices) notFound()
  const { thread, batches, isOpen, needStrandTenths, promisedStrandTenths } = choices
  const length = (strandTenths: number) => threadLength(strandTenths, thread.strands, settings.threadUnit)
  const want = Math.max(0, needStrandTenths - promisedStrandTenths)
  const page = `/projects/${projectId}`
  return (
    <>
      <PageHead
        title={say('Which {threadName}', { threadName: threadName(thread) })}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: project.design.title, href: page },
          { label: threadName(thread) },
        ]}
        byline={say('Promise the project exact stock, or give some back. What is promised here is free to nobody else.')}
      />
      <Facts
        items={[
          { label: say('Needed'), value: length(needStrandTenths) },
          { label: say('Promised'), value: length(promisedStrandTenths) },
          { label: say('Still wanted'), value: want > 0 ? <b className="do">{length(want)}</b> : say('nothing') },
        ]}
      />
      <Section title={say('Stock of {name}', { name: project.owner.name })} id="stock">
        {batches.length === 0 ? (
          <Empty
            title={say('None on record')}
            actions={<LinkButton href={`/threads/${threadId}/receive`}>{say('Take some in')}</LinkButton>}
          >
            {sayParts('The project is stitched from the goods of {name}, who has none of this thread.', {
              name: project.owner.name,
            })}
          </Empty>
        ) : (
          <Ledger
            caption={say('Stock of {threadName} this project can be promised from', { threadName: threadName(thread) })}
            rows={batches}
            rowKey={({ batch }) => batch.id}
            columns={[
              {
                key: 'batch',
                head: say('Stock'),
                cell: ({ batch }) => (
                  <>
                    {batch.lot ? say('Lot {lot}', { lot: batch.lot }) : say('No lot mark')}
                    <br />
                    <small className="quiet">{heldWords(batch, thread, settings.threadUnit)}</small>
                  </>
                ),
                phone: 'lead',
              },
              {
                key: 'free',
                head: say('Free to it'),
                cell: ({ freeStrandTenths }) => (freeStrandTenths > 0 ? length(freeStrandTenths) : say('none')),
                isNumeric: true,
                phone: 'labelled',
              },
              {
                key: 'promised',
                head: say('Promised to it'),
                cell: (choice) => (choice.promisedStrandTenths > 0 ? length(choice.promisedStrandTenths) : say('none')),
                isNumeric: true,
                phone: 'labelled',
              },
              {
                key: 'do',
                head: say('Promise'),
                cell: (choice) =>
                  isOpen && (
                    <Promising
                      choice={choice}
                      line={batches.indexOf(choice) + 1}
                      want={want}
                      length={length}
                      ids={{ projectId, threadId }}
                    />
                  ),
                phone: 'wide',
                isOffPaper: true,
              },
              {
                key: 'place',
                head: say('Place'),
                cell: ({ place }) => (place ? <PlaceLabel label={place.label} href={`/places/${place.id}`} /> : say('no place')),
                isAtEnd: true,
                phone: 'side',
              },
            ]}
          />
        )}
        {!isOpen && <p className="quiet">{say('Nothing can be promised to it as it stands: plan it first.')}</p>}
        <p className={s.sum}>
          <LinkButton kind="quiet" href={page}>
            {say('Back to the project')}
          </LinkButton>
        </p>
      </Section>
    </>
  )
}

type PromisingProps = {
  choice: BatchChoice
  /** Which line of the list it is: told where nothing else tells two lines apart. */
  line: number
  want: number
  length: (strandTenths: number) => string
  ids: { projectId: string; threadId: string }
}

/** Two small forms for one batch: promise so much of it, give it back. */
function Promising({ choice, line, want, length, ids }: PromisingProps) {
  const { batch, version, freeStrandTenths, promisedStrandTenths } = choice
  const hidden = { ...ids, batchId: batch.id }
  const offered = Math.min(freeStrandTenths, promisedStrandTenths + want) || freeStrandTenths
  const name = batch.lot ? say('lot {lot}', { lot: batch.lot }) : say('this stock')
  return (
    <div className={s.promising}>
      {freeStrandTenths > 0 && (
        <Form
          action={promiseBatchAction}
          hidden={{ ...hidden, version: String(version), offered: String(offered) }}
          submit={say('Promise it')}
          submitKind="plain"
          isInline
          label={say('Promise of {name}, line {line}', { name, line })}
        >
          <TextField
            name="strandTenths"
            label={say('Length of {name}', { name })}
            defaultValue={length(offered)}
            width="short"
            isRequired
          />
        </Form>
      )}
      {promisedStrandTenths > 0 && (
        <Form
          action={giveBackAction}
          hidden={hidden}
          submit={say('Give back {length}', { length: length(promisedStrandTenths) })}
          submitKind="quiet"
          isInline
          label={say('Give back {name}', { name })}
        />
      )}
    </div>
  )
}
