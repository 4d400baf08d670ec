import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import type { ReactNode } from 'react'
import { listPlaceOptions, type PlaceOption } from '#lib/db/place/queries'
import { listProjectChoices, type ProjectChoice } from '#lib/db/stock/queries'
import { findThread, type HeldBatch, type ThreadPage } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { isOut } from '#lib/stock/batch'
import { LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { CheckField, ChoiceField, NumberField, SelectField, TextField } from '#ui/field'
import { Form, type FormAction } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer, type Viewer } from '#viewer/viewer'
import { plural, threadLength } from '#words/amounts'
import { heldWords, partWords } from '#words/stock'
import { threadTitle } from '#words/thread'
import { formatStrandBoth } from '../../../../amounts'
import { correctAction, moveAction, passOnAction, recordUseAction, relabelAction, takeAction } from '../../../../batch-actions'
import { PartFields } from '../../../../part-fields'
import s from '../../../../threads.module.css'

export const metadata: Metadata = { title: 'Stock of a thread' }

const verbs = ['use', 'take', 'move', 'correct', 'relabel', 'pass-on'] as const
type Verb = (typeof verbs)[number]

type Asked = {
  thread: ThreadPage
  held: HeldBatch
  unit: ThreadLengthUnit
  places: readonly PlaceOption[]
  projects: readonly ProjectChoice[]
  owners: Viewer['owners']
}

type VerbForm = { title: string; byline: string; submit: string; action: FormAction; fields: (asked: Asked) => ReactNode }

const forms: Record<Verb, VerbForm> = {
  use: {
    title: 'Use some',
    byline: 'The part is used first, then a new one is opened and what is left of it becomes the part.',
    submit: 'Write it as used',
    action: recordUseAction,
    fields: ({ unit, projects, held }) => (
      <>
        <TextField
          name="strandTenths"
          label="Length used"
          isRequired
          placeholder={`2.5 ${unit}`}
          hint="The thread as it comes off, all strands together. Units are understood: 2.5 m, 60 cm, 3 yd."
        />
        <ProjectField projects={projects} held={held} none="no project" />
        <ReasonField hint="Given away, sold, spoilt: whatever the figure alone would not say." />
      </>
    ),
  },
  take: {
    title: 'Take to another place',
    byline: 'It keeps its home and is out until it is put back. What stays behind stays where it is.',
    submit: 'Take it',
    action: takeAction,
    fields: ({ thread, unit, projects, places, held }) => (
      <>
        <NumberField
          name="wholePutUps"
          label={`Whole ${plural(thread.line.putUpWord)}`}
          isWhole
          defaultValue={held.batch.wholePutUps > 0 ? 1 : 0}
          unit={`of ${held.batch.wholePutUps}`}
        />
        {held.batch.partCertainty !== 'none' && (
          <CheckField name="takesPart" label={`And the part: ${partWords(held.batch, thread.line.strands, unit)}`} />
        )}
        <PlaceField places={places} label="To" hint="The label of a bag, a ring, a person." />
        <ProjectField projects={projects} held={held} none="no project" />
        <ReasonField />
      </>
    ),
  },
  move: {
    title: 'Move all of it',
    byline: 'All of this stock goes to another place, for good or for a while.',
    submit: 'Move it',
    action: moveAction,
    fields: ({ places }) => (
      <>
        <PlaceField places={places} label="To" hint="The label of the place." />
        <ChoiceField
          name="stay"
          label="It goes there"
          isRequired
          defaultValue="home"
          options={[
            { value: 'home', label: 'to live there', note: 'that place becomes its home' },
            { value: 'while', label: 'for a while', note: 'its home stays as it is; it is out until it is put back' },
          ]}
        />
        <ReasonField />
      </>
    ),
  },
  correct: {
    title: 'Correct the figure',
    byline: 'Say what is there now. What the record said before stays in the history, with your reason.',
    submit: 'Correct it',
    action: correctAction,
    fields: ({ thread, unit, held }) => (
      <>
        <PartFields line={thread.line} unit={unit} batch={held.batch} />
        <TextField
          name="reason"
          label="Why"
          isRequired
          suggestions={['counted', 'found', 'lost', 'spoilt', 'written down wrongly']}
          maxLength={500}
        />
      </>
    ),
  },
  relabel: {
    title: 'Correct the label',
    byline:
      'The dye lot, and the length of a whole one, as the label says. How many there are stays. What the record said before stays in the history, with your reason.',
    submit: 'Correct it',
    action: relabelAction,
    fields: ({ thread, unit, held }) => (
      <>
        <TextField
          name="lot"
          label="Dye lot"
          defaultValue={held.batch.lot ?? ''}
          hint="Just as it is printed. Leave it out when it is not marked."
          maxLength={100}
        />
        <TextField
          name="putUpStrandTenths"
          label={`One ${thread.line.putUpWord} is`}
          isRequired
          defaultValue={threadLength(held.batch.putUpStrandTenths, thread.line.strands, unit)}
          hint="Its length as sold, all strands together."
        />
        <TextField
          name="reason"
          label="Why"
          isRequired
          suggestions={['misread', 'written down wrongly', 'the band was found']}
          maxLength={500}
        />
      </>
    ),
  },
  'pass-on': {
    title: 'Pass to another owner',
    byline: 'It changes hands as a recorded move and stays where it is. To undo it, the new owner passes it back.',
    submit: 'Pass it on',
    action: passOnAction,
    fields: ({ owners, held }) => (
      <>
        <SelectField
          name="toOwnerId"
          label="To"
          isRequired
          none="choose"
          options={owners
            .filter((owner) => owner.id !== held.batch.ownerId)
            .map((owner) => ({ value: owner.id, label: owner.name }))}
        />
        <ReasonField hint="Bought, swapped, lent for good." />
      </>
    ),
  },
}

const ReasonField = ({ hint }: { hint?: string }) => <TextField name="reason" label="Reason" hint={hint} maxLength={500} />

const PlaceField = ({ places, label, hint }: { places: readonly PlaceOption[]; label: string; hint: string }) => (
  <TextField name="place" label={label} isRequired hint={hint} suggestions={places.map((place) => place.label)} maxLength={100} />
)

function ProjectField({ projects, held, none }: { projects: readonly ProjectChoice[]; held: HeldBatch; none: string }) {
  if (projects.length === 0) return null
  const promisedTo = new Set(held.promises.map((promise) => promise.projectId))
  const first = projects.find((project) => promisedTo.has(project.id))
  return (
    <SelectField
      name="projectId"
      label="For"
      none={none}
      defaultValue={first?.id ?? ''}
      options={projects.map((project) => ({
        value: project.id,
        label: [project.title, project.forWhom && `for ${project.forWhom}`].filter(Boolean).join(', '),
        group: promisedTo.has(project.id) ? 'Promised to' : 'Other projects',
      }))}
      hint="What is promised to other projects is left alone."
    />
  )
}

type BatchVerbPageProps = { params: Promise<{ threadId: string; batchId: string; verb: string }> }

export default async function BatchVerbPage({ params }: BatchVerbPageProps) {
  const { threadId, batchId, verb: asked } = await params
  const verb = verbs.find((known) => known === asked)
  if (!verb) notFound()
  const { settings, owners } = await getViewer()
  const unit = settings.threadUnit
  const [thread, places] = await Promise.all([
    findThread(threadId, { ownerIds: owners.map((owner) => owner.id) }),
    listPlaceOptions(),
  ])
  const held = thread?.batches.find(({ batch }) => batch.id === batchId)
  if (!thread || !held) notFound()
  const projects = await listProjectChoices([held.batch.ownerId])
  const { batch } = held
  const page = `/threads/${thread.id}`
  const form = forms[verb]
  return (
    <>
      <PageHead
        title={form.title}
        crumbs={[{ label: 'Threads', href: '/threads' }, { label: threadTitle(thread), href: page }, { label: form.title }]}
        byline={form.byline}
      />
      <Facts
        items={[
          { label: 'Thread', value: threadTitle(thread) },
          { label: 'Here', value: heldWords(batch, thread.line, unit) },
          { label: 'Lot', value: batch.lot ?? 'unmarked' },
          { label: `One ${thread.line.putUpWord}`, value: formatStrandBoth(batch.putUpStrandTenths, thread.line.strands, unit) },
          { label: 'Owner', value: held.ownerName },
          { label: isOut(batch) ? 'Out in' : 'In', value: held.current?.label ?? held.home?.label ?? 'no place yet' },
        ]}
      />
      <div className={s.gap}>
        <Form
          label={form.title}
          action={form.action}
          submit={form.submit}
          hidden={{
            batchId: batch.id,
            version: String(held.version),
            partBefore: String(batch.partStrandTenths),
            putUpBefore: String(batch.putUpStrandTenths),
          }}
          actions={
            <LinkButton kind="quiet" href={page}>
              Leave it
            </LinkButton>
          }
        >
          {form.fields({ thread, held, unit, places, projects, owners })}
        </Form>
      </div>
    </>
  )
}
