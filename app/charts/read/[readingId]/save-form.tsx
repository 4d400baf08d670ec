'use client'

import type { ChartKind } from '#lib/chart/design'
import { sumReading } from '#lib/chart/reading-fields'
import { unknownLines, unknownThreads } from '#lib/chart/unknown-threads'
import type { Owner } from '#lib/db/owner/owners'
import { CheckField, ChoiceField, FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Unfold } from '#ui/unfold'
import { counted } from '#words/amounts'
import { ChartFields } from '../../../_charts/chart-fields'
import { HeldAlready } from '../../../_charts/held-already'
import { saveReadingAction } from '../../../_reading/actions'
import type { ReviewShown } from '../../../_reading/review-shown'
import { saveFields as fields } from '../../../_reading/save-fields'
import { AnotherFile } from './another-file'
import s from './review.module.css'

/** A design on record that may be meant. */
export type DesignOffered = { id: string; title: string; chartTitle: string; listNames: string[] }

export type SaveFormProps = {
  owners: readonly Owner[]
  ownerId: string
  designerNames: readonly string[]
  placeLabels: readonly string[]
  currency: string
  usualListName: string
  putUpText: string
  /** For each design read: designs on record that may be meant, the likeliest first. */
  offered: readonly (readonly DesignOffered[])[]
  /** The design whose key it was said to be. */
  designId: string | null
  /** What it was read from, where that was a file. */
  file: { name: string; hasCover: boolean; isPhoto: boolean } | null
  lines: readonly { makerName: string; name: string }[]
}

/** Where a reading goes: a new chart, or the lists of designs that are there; and what is added and kept along with it. */
export function SaveForm(props: SaveFormProps & { shown: ReviewShown }) {
  const { shown, owners, ownerId, designerNames, placeLabels, currency, designId, file } = props
  const { designs } = shown.reading
  const [first] = designs
  const designers = [...new Set(designs.flatMap(({ facts }) => facts.designer?.value ?? []))]
  // A photo is of something on paper; a PDF is the chart itself.
  const kind: ChartKind = file && !file.isPhoto ? 'file' : designs.length > 1 ? 'booklet' : 'leaflet'
  const title = (designs.length <= 1 && first?.facts.title?.value) || (file ? file.name.replace(/\.[a-z]{3,4}$/iu, '') : '')
  return (
    <Form
      action={saveReadingAction}
      submit="Save it"
      pending="Saving"
      label="Save the reading"
      hidden={{ id: shown.id, version: String(shown.version) }}
    >
      <div className={s.target}>
        <ChoiceField
          name="target"
          label="Save it as"
          options={[
            { value: 'chart', label: 'A new chart', note: 'With its designs and their thread lists.' },
            { value: 'designs', label: 'The key of a design that is here', note: 'Its thread list is added to the design.' },
          ]}
          defaultValue={designId === null ? 'chart' : 'designs'}
        />
        <div className={s.asChart}>
          <ChartFields
            owners={owners}
            ownerId={ownerId}
            designerNames={designerNames}
            currency={currency}
            first={{ title, designers, kind }}
            place={
              <TextField
                name="placeLabel"
                label="Where it lives"
                hint="The label of a place; a new one is made. A file needs none."
                suggestions={placeLabels}
                maxLength={100}
                width="half"
              />
            }
          />
          <HeldAlready />
        </div>
        {designs.map((_, design) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a design is known by its place in the reading
          <DesignFields key={design} design={design} {...props} />
        ))}
      </div>
      <NewThreadFields {...props} />
      <LeaveOut shown={shown} />
      {file && (
        <>
          <CheckField
            name="keepsFile"
            label={`Keep ${file.name} as the digital chart`}
            hint="For its owner’s own use: nobody else is ever shown it, and it is not to be passed on."
            defaultChecked
          />
          {file.hasCover && (
            <CheckField
              name="keepsCover"
              label={file.isPhoto ? 'Take it as the cover too' : 'Take its first page as the cover'}
              defaultChecked={!file.isPhoto}
            />
          )}
          <AnotherFile />
        </>
      )}
    </Form>
  )
}

type DesignFieldsProps = SaveFormProps & { shown: ReviewShown; design: number }

/** Which design it is, and the names of its lists. */
function DesignFields({ shown, design, offered, designId, usualListName }: DesignFieldsProps) {
  const { designs } = shown.reading
  const read = designs[design]
  if (!read) return null
  const isOnly = designs.length === 1
  const title = read.facts.title?.value ?? ''
  const choices = offered[design] ?? []
  const lists = read.lists.flatMap((list, index) => (list.lines.length > 0 ? [{ list, index }] : []))
  return (
    <fieldset className={s.designFields}>
      <legend>{isOnly ? 'Its design' : title || `Design ${design + 1}`}</legend>
      <div className={s.asChart}>
        {!isOnly && <CheckField name={fields.takesDesign(design)} label="Save this design" defaultChecked />}
        <TextField
          name={fields.designTitle(design)}
          label="Title of the design"
          hint={isOnly ? 'If it is not that of the chart' : undefined}
          defaultValue={isOnly ? '' : title}
          maxLength={200}
          width="half"
        />
      </div>
      <div className={s.asLists}>
        <SelectField
          name={fields.intoDesign(design)}
          label="Which design"
          none={choices.length > 0 ? 'another: type its title below' : 'type its title below'}
          options={choices.map(({ id, title: name, chartTitle, listNames }) => ({
            value: id,
            label: [
              name === chartTitle ? name : `${name}, in ${chartTitle}`,
              listNames.length > 0 && `has ${listNames.join(', ')}`,
            ]
              .filter(Boolean)
              .join('; '),
          }))}
          defaultValue={isOnly ? (designId ?? choices[0]?.id ?? '') : ''}
          width="half"
        />
        <TextField
          name={fields.called(design)}
          label="Or its title"
          hint="As it stands under Charts"
          maxLength={200}
          width="half"
        />
        <CheckField
          name={fields.fills(design)}
          label="Fill in what the design lacks"
          hint="Size, count, weave and cloth, where the text says them and the design does not"
          defaultChecked
        />
      </div>
      {lists.map(({ list, index }) => (
        <FieldRow key={index}>
          <CheckField
            name={fields.takesList(design, index)}
            label={`Save ${lists.length === 1 ? 'its list' : (list.name ?? `list ${index + 1}`)}, ${counted(list.lines.length, 'line')}`}
            defaultChecked
          />
          <TextField
            name={fields.listName(design, index)}
            label="Name of the list"
            defaultValue={list.name ?? (index === 0 ? usualListName : `List ${index + 1}`)}
            maxLength={120}
          />
        </FieldRow>
      ))}
    </fieldset>
  )
}

/** Threads that are not on record: added only where they are ticked; and what the lines are like that come with them. */
function NewThreadFields({ shown, lines, putUpText }: SaveFormProps & { shown: ReviewShown }) {
  const threads = unknownThreads(shown.reading)
  if (threads.length === 0) return null
  const fresh = unknownLines(threads, lines)
  return (
    <fieldset className={s.fresh}>
      <legend>
        {threads.length === 1 ? 'One thread is not on record yet' : `${threads.length} threads are not on record yet`}
      </legend>
      <p>Look for slips: a thread is added only if it is ticked.</p>
      <CheckField
        name="addAll"
        label={threads.length === 1 ? 'It is meant: add it' : `They are all meant: add all ${threads.length}`}
      />
      {threads.length > 1 && (
        <Unfold label="Tick them one by one" isOpenAtFirst={threads.length <= 4}>
          {threads.map(({ key, makerName, lineName, code, name, places }, index) => (
            <CheckField
              key={key}
              name={fields.addThread(index)}
              value={key}
              label={[makerName, lineName, code, name].filter(Boolean).join(' ')}
              hint={places.length > 1 ? `In ${places.length} lines` : undefined}
            />
          ))}
        </Unfold>
      )}
      {threads.length === 1 && (
        <p>{[threads[0]?.makerName, threads[0]?.lineName, threads[0]?.code, threads[0]?.name].filter(Boolean).join(' ')}</p>
      )}
      {fresh.map(({ key, makerName, lineName, isNewMaker, threadCount }, index) => (
        <div key={key}>
          <p>
            <b>{[makerName, lineName].filter(Boolean).join(' ')}</b> would be {isNewMaker ? 'a new maker' : 'a new line'}, with{' '}
            {counted(threadCount, 'thread')}:
          </p>
          <FieldRow>
            <NumberField name={fields.strands(index)} label="Strands it parts into" defaultValue="6" isWhole />
            <TextField name={fields.putUp(index)} label="Length of one skein" defaultValue={putUpText} width="short" />
          </FieldRow>
        </div>
      ))}
    </fieldset>
  )
}

/** Asked where something is not ready to be saved. */
function LeaveOut({ shown }: { shown: ReviewShown }) {
  const { newThreads, toLookAt } = sumReading(shown.reading, shown.dismissed)
  return (
    <CheckField
      name="leavesOut"
      label="Leave out for now what cannot be saved yet"
      hint={`Lines without a thread, or whose new thread is not ticked; the list is then marked as not whole.${newThreads + toLookAt === 0 ? ' There are none.' : ''}`}
    />
  )
}
