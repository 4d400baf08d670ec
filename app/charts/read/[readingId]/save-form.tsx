'use client'

import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ChartKind } from '#lib/chart/design'
import { sumReading } from '#lib/chart/reading-fields'
import { unknownLines, unknownThreads } from '#lib/chart/unknown-threads'
import type { Owner } from '#lib/db/owner/owners'
import { CheckField, ChoiceField, FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Unfold } from '#ui/unfold'
import { ChartFields } from '../../../_charts/chart-fields'
import { HeldAlready } from '../../../_charts/held-already'
import { saveReadingAction } from '../../../_reading/actions'
import type { ReviewShown } from '../../../_reading/review-shown'
import { saveFields as fields } from '../../../_reading/save-fields'
import { AnotherFile } from './another-file'
import s from './save-form.module.css'

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
      submit={say('Save it')}
      pending={say('Saving')}
      label={say('Save the reading')}
      hidden={{ id: shown.id, version: String(shown.version) }}
    >
      <div className={s.target}>
        <ChoiceField
          name="target"
          label={say('Save it as')}
          options={[
            { value: 'chart', label: say('A new chart'), note: say('With its designs and their thread lists.') },
            {
              value: 'designs',
              label: say('The key of a design that is here'),
              note: say('Its thread list is added to the design.'),
            },
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
                label={say('Where it lives')}
                hint={say('The label of a place; a new one is made. A file needs none.')}
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
            label={say('Keep {name} as the digital chart', { name: file.name })}
            hint={say('For its owner’s own use: nobody else is ever shown it, and it is not to be passed on.')}
            defaultChecked
          />
          {file.hasCover && (
            <CheckField
              name="keepsCover"
              label={file.isPhoto ? say('Take it as the cover too') : say('Take its first page as the cover')}
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
      <legend>{isOnly ? say('Its design') : title || say('Design {design}', { design: design + 1 })}</legend>
      <div className={s.asChart}>
        {!isOnly && <CheckField name={fields.takesDesign(design)} label={say('Save this design')} defaultChecked />}
        <TextField
          name={fields.designTitle(design)}
          label={say('Title of the design')}
          hint={isOnly ? say('If it is not that of the chart') : undefined}
          defaultValue={isOnly ? '' : title}
          maxLength={200}
          width="half"
        />
      </div>
      <div className={s.asLists}>
        <SelectField
          name={fields.intoDesign(design)}
          label={say('Which design')}
          none={choices.length > 0 ? say('another: type its title below') : say('type its title below')}
          options={choices.map(({ id, title: name, chartTitle, listNames }) => ({
            value: id,
            label: [
              name === chartTitle ? name : say('{name}, in {place}', { name, place: chartTitle }),
              listNames.length > 0 && say('has {listNames}', { listNames: listNames.join(', ') }),
            ]
              .filter(Boolean)
              .join('; '),
          }))}
          defaultValue={isOnly ? (designId ?? choices[0]?.id ?? '') : ''}
          width="half"
        />
        <TextField
          name={fields.called(design)}
          label={say('Or its title')}
          hint={say('As it stands under Charts')}
          maxLength={200}
          width="half"
        />
        <CheckField
          name={fields.fills(design)}
          label={say('Fill in what the design lacks')}
          hint={say('Size, count, weave and cloth, where the text says them and the design does not')}
          defaultChecked
        />
      </div>
      {lists.map(({ list, index }) => (
        <FieldRow key={index}>
          <CheckField
            name={fields.takesList(design, index)}
            label={say('Save {rest}, {lines, plural, one {# line} other {# lines}}', {
              rest: lists.length === 1 ? say('its list') : (list.name ?? say('list {index}', { index: index + 1 })),
              lines: list.lines.length,
            })}
            defaultChecked
          />
          <TextField
            name={fields.listName(design, index)}
            label={say('Name of the list')}
            defaultValue={list.name ?? (index === 0 ? usualListName : say('List {number}', { number: index + 1 }))}
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
        {threads.length === 1
          ? say('One thread is not on record yet')
          : say('{threads} threads are not on record yet', { threads: threads.length })}
      </legend>
      <p>{say('Look for slips: a thread is added only if it is ticked.')}</p>
      <CheckField
        name="addAll"
        label={
          threads.length === 1
            ? say('It is meant: add it')
            : say('They are all meant: add all {threads}', { threads: threads.length })
        }
      />
      {threads.length > 1 && (
        <Unfold label={say('Tick them one by one')} isOpenAtFirst={threads.length <= 4}>
          {threads.map(({ key, makerName, lineName, code, name, places }, index) => (
            <CheckField
              key={key}
              name={fields.addThread(index)}
              value={key}
              label={[makerName, lineName, code, name].filter(Boolean).join(' ')}
              hint={places.length > 1 ? say('In {places} lines', { places: places.length }) : undefined}
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
            {sayParts(
              '{what} would be {isNewMaker, select, yes {a new maker} other {a new line}}, with {threadCount, plural, one {# thread} other {# threads}}:',
              { what: <b>{[makerName, lineName].filter(Boolean).join(' ')}</b>, isNewMaker, threadCount },
            )}
          </p>
          <FieldRow>
            <NumberField name={fields.strands(index)} label={say('Strands it parts into')} defaultValue="6" isWhole />
            <TextField name={fields.putUp(index)} label={say('Length of one skein')} defaultValue={putUpText} width="short" />
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
      label={say('Leave out for now what cannot be saved yet')}
      hint={say(
        'Lines without a thread, or whose new thread is not ticked; the list is then marked as not whole.{newThreadsCase, select, yes { There are none.} other {}}',
        { newThreadsCase: newThreads + toLookAt === 0 },
      )}
    />
  )
}
