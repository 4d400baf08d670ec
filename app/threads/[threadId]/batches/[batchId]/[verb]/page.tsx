import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import type { ReactNode } from 'react'
import type { FormAction } from '#forms/form-state'
import { say } from '#language/say'
import { listPlaceOptions, type PlaceOption } from '#lib/db/place/queries'
import {
  findBatchThread,
  listMergeChoices,
  listProjectChoices,
  type MergeChoice,
  type ProjectChoice,
} from '#lib/db/stock/queries'
import { findThread, type HeldBatch, type ThreadPage } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { isOut, putUpWords } from '#lib/stock/batch'
import { ScanInto } from '#trade/scan-into'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { CheckField, ChoiceField, FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer, type Viewer } from '#viewer/viewer'
import { plural, singular, threadLength } from '#words/amounts'
import { heldWords, partWords } from '#words/stock'
import { threadTitle } from '#words/thread'
import { formatStrandBoth } from '../../../../amounts'
import {
  correctAction,
  mergeAction,
  moveAction,
  passOnAction,
  recordUseAction,
  relabelAction,
  splitAction,
  takeAction,
} from '../../../../batch-actions'
import { PartFields } from '../../../../part-fields'
import s from '../../../../threads.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Stock of a thread') })

const verbs = ['use', 'take', 'move', 'correct', 'relabel', 'pass-on', 'split', 'merge'] as const
type Verb = (typeof verbs)[number]

type Asked = {
  thread: ThreadPage
  held: HeldBatch
  unit: ThreadLengthUnit
  places: readonly PlaceOption[]
  projects: readonly ProjectChoice[]
  owners: Viewer['owners']
  /** Whether what a full one weighs is on record. */
  canWeigh: boolean
  mergeChoices: readonly MergeChoice[]
}

type VerbForm = { title: string; byline: string; submit: string; action: FormAction; fields: (asked: Asked) => ReactNode }

const forms = (): Record<Verb, VerbForm> => ({
  use: {
    title: say('Use some'),
    byline: say('The part is used first, then a new one is opened and what is left of it becomes the part.'),
    submit: say('Write it as used'),
    action: recordUseAction,
    fields: ({ unit, projects, held }) => (
      <>
        <TextField
          name="strandTenths"
          label={say('Length used')}
          placeholder={`2.5 ${unit}`}
          hint={say('The thread as it comes off, all strands together. Units are understood: 2.5 m, 60 cm, 3 yd.')}
        />
        <CheckField name="isAll" label={say('It is used up: all there is')} />
        <ProjectField projects={projects} held={held} none={say('no project')} />
        <ReasonField hint={say('Given away, sold, spoilt: whatever the figure alone would not say.')} />
      </>
    ),
  },
  take: {
    title: say('Take to another place'),
    byline: say('It keeps its home and is out until it is put back. What stays behind stays where it is.'),
    submit: say('Take it'),
    action: takeAction,
    fields: ({ thread, unit, projects, places, held }) => (
      <>
        <PartingFields thread={thread} held={held} unit={unit} />
        <PlaceField places={places} label={say('To')} hint={say('The label of a bag, a ring, a person.')} />
        <ProjectField projects={projects} held={held} none={say('no project')} />
        <ReasonField />
      </>
    ),
  },
  move: {
    title: say('Move all of it'),
    byline: say('All of this stock goes to another place, for good or for a while.'),
    submit: say('Move it'),
    action: moveAction,
    fields: ({ places }) => (
      <>
        <PlaceField places={places} label={say('To')} hint={say('The label of the place.')} />
        <StayField />
        <ReasonField />
      </>
    ),
  },
  correct: {
    title: say('Correct the figure'),
    byline: say('Say what is there now. What the record said before stays in the history, with your reason.'),
    submit: say('Correct it'),
    action: correctAction,
    fields: ({ thread, unit, held, canWeigh }) => (
      <>
        <PartFields line={thread.line} unit={unit} canWeigh={canWeigh} batch={held.batch} />
        <WhyField suggestions={['counted', 'found', 'lost', 'spoilt', say('written down wrongly')]} />
      </>
    ),
  },
  relabel: {
    title: say('Correct the label'),
    byline: say(
      'The dye lot, what one is, and the length of a whole one, as the label says. How many there are stays. What the record said before stays in the history, with your reason.',
    ),
    submit: say('Correct it'),
    action: relabelAction,
    fields: ({ thread, unit, held }) => (
      <>
        <TextField
          name="lot"
          label={say('Dye lot')}
          defaultValue={held.batch.lot ?? ''}
          hint={say('Just as it is printed. Leave it out when it is not marked.')}
          maxLength={100}
        />
        <FieldRow>
          <TextField
            name="putUpWord"
            label={say('One is a')}
            defaultValue={singular(held.batch.putUpWord ?? thread.line.putUpWord)}
            suggestions={putUpWords.map(singular)}
            hint={say('Skein, hank, spool, card, cut length.')}
            maxLength={40}
          />
          <TextField
            name="putUpStrandTenths"
            label={say('Length of one')}
            isRequired
            defaultValue={threadLength(held.batch.putUpStrandTenths, thread.line.strands, unit)}
            hint={say('As sold, all strands together.')}
          />
        </FieldRow>
        <WhyField suggestions={['misread', say('written down wrongly'), say('the band was found')]} />
      </>
    ),
  },
  'pass-on': {
    title: say('Pass to another owner'),
    byline: say('It changes hands as a recorded move and stays where it is. To undo it, the new owner passes it back.'),
    submit: say('Pass it on'),
    action: passOnAction,
    fields: ({ thread, unit, owners, held }) => (
      <>
        <SelectField
          name="toOwnerId"
          label={say('To')}
          isRequired
          none={say('choose')}
          options={owners
            .filter((owner) => owner.id !== held.batch.ownerId)
            .map((owner) => ({ value: owner.id, label: owner.name }))}
        />
        <ChoiceField
          name="howMuch"
          label={say('How much')}
          isRequired
          defaultValue="all"
          options={[
            { value: 'all', label: say('all of it') },
            {
              value: 'some',
              label: say('only this'),
              note: say('the rest stays with its owner; what is promised must stay too'),
            },
          ]}
        />
        <PartingFields thread={thread} held={held} unit={unit} />
        <ReasonField hint={say('Bought, swapped, lent for good.')} />
      </>
    ),
  },
  split: {
    title: say('Part it'),
    byline: say(
      'What is parted off stands by itself from now on, with a home of its own if you name one. What is promised stays with the rest.',
    ),
    submit: say('Part it'),
    action: splitAction,
    fields: ({ thread, unit, held, places }) => (
      <>
        <PartingFields thread={thread} held={held} unit={unit} />
        <TextField
          name="place"
          label={say('It goes to')}
          hint={say('The label of a place. Empty: it stays where it is.')}
          suggestions={places.map((place) => place.label)}
          maxLength={100}
        />
        <StayField />
        <ReasonField hint={say('Why it is kept apart: a kit, a ring, another drawer.')} />
      </>
    ),
  },
  merge: {
    title: say('Lay together'),
    byline: say('Two stocks of the same lot, owner, put-up and home become one. Both keep their history, and promises go over.'),
    submit: say('Lay them together'),
    action: mergeAction,
    fields: ({ thread, unit, mergeChoices }) => (
      <>
        <SelectField
          name="intoBatchId"
          label={say('With')}
          isRequired
          none={mergeChoices.length === 1 ? undefined : say('choose')}
          options={mergeChoices.map((other) => ({ value: other.id, label: heldWords(other, thread.line, unit) }))}
        />
        <ReasonField />
      </>
    ),
  },
})

function PartingFields({ thread, held, unit }: Pick<Asked, 'thread' | 'held' | 'unit'>) {
  const { batch } = held
  return (
    <>
      <NumberField
        name="wholePutUps"
        label={say('Whole {plural}', { plural: plural(batch.putUpWord ?? thread.line.putUpWord) })}
        isWhole
        defaultValue={batch.wholePutUps > 0 ? 1 : 0}
        unit={say('of {wholePutUps}', { wholePutUps: batch.wholePutUps })}
      />
      {batch.partCertainty !== 'none' && (
        <CheckField name="takesPart" label={say('And the part: {part}', { part: partWords(batch, thread.line.strands, unit) })} />
      )}
    </>
  )
}

const ReasonField = ({ hint }: { hint?: string }) => <TextField name="reason" label={say('Reason')} hint={hint} maxLength={500} />

const WhyField = ({ suggestions }: { suggestions: readonly string[] }) => (
  <TextField name="reason" label={say('Why')} isRequired suggestions={suggestions} maxLength={500} />
)

const StayField = () => (
  <ChoiceField
    name="stay"
    label={say('It goes there')}
    isRequired
    defaultValue="home"
    options={[
      { value: 'home', label: say('to live there'), note: say('that place becomes its home') },
      { value: 'while', label: say('for a while'), note: say('its home stays as it is; it is out until it is put back') },
    ]}
  />
)

const PlaceField = ({ places, label, hint }: { places: readonly PlaceOption[]; label: string; hint: string }) => (
  <>
    <TextField
      name="place"
      label={label}
      isRequired
      hint={hint}
      suggestions={places.map((place) => place.label)}
      maxLength={100}
    />
    <ScanInto name="place" />
  </>
)

function ProjectField({ projects, held, none }: { projects: readonly ProjectChoice[]; held: HeldBatch; none: string }) {
  if (projects.length === 0) return null
  const promisedTo = new Set(held.promises.map((promise) => promise.projectId))
  const first = projects.find((project) => promisedTo.has(project.id))
  return (
    <SelectField
      name="projectId"
      label={say('For')}
      none={none}
      defaultValue={first?.id ?? ''}
      options={projects.map((project) => ({
        value: project.id,
        label: [project.title, project.forWhom && say('for {forWhom}', { forWhom: project.forWhom })].filter(Boolean).join(', '),
        group: promisedTo.has(project.id) ? say('Promised to') : say('Other projects'),
      }))}
      hint={say('What is promised to other projects is left alone.')}
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
  const { batch } = held
  const [projects, figures, mergeChoices] = await Promise.all([
    listProjectChoices([batch.ownerId]),
    findBatchThread(batch.id),
    verb === 'merge' ? listMergeChoices(batch) : [],
  ])
  const canWeigh = figures?.putUpMilligrams != null
  const one = batch.putUpWord ?? thread.line.putUpWord
  const page = `/threads/${thread.id}`
  const form = forms()[verb]
  return (
    <>
      <PageHead
        title={form.title}
        crumbs={[{ label: say('Threads'), href: '/threads' }, { label: threadTitle(thread), href: page }, { label: form.title }]}
        byline={form.byline}
      />
      <Facts
        items={[
          { label: say('Thread'), value: threadTitle(thread) },
          { label: say('Here'), value: heldWords(batch, thread.line, unit) },
          { label: say('Lot'), value: batch.lot ?? say('unmarked') },
          {
            label: say('One {one}', { one: singular(one) }),
            value: formatStrandBoth(batch.putUpStrandTenths, thread.line.strands, unit),
          },
          { label: say('Owner'), value: held.ownerName },
          {
            label: isOut(batch) ? say('Out in') : say('In'),
            value: held.current?.label ?? held.home?.label ?? say('no place yet'),
          },
        ]}
      />
      {verb === 'merge' && mergeChoices.length === 0 ? (
        <Empty title={say('Nothing to lay it with')} actions={<LinkButton href={page}>{say('Back to the thread')}</LinkButton>}>
          {say(
            'Only stock of the same lot, owner, put-up and home that lies in the same place can be laid together with it, and there is none.',
          )}
        </Empty>
      ) : (
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
                {say('Leave it')}
              </LinkButton>
            }
          >
            {form.fields({ thread, held, unit, places, projects, owners, canWeigh, mergeChoices })}
          </Form>
        </div>
      )}
    </>
  )
}
