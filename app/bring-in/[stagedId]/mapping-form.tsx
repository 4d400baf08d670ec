'use client'

import { useState } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ColumnUnit, Field } from '#lib/importing/fields'
import type { Mapping } from '#lib/importing/mapping'
import type { Separator } from '#lib/importing/sniff-separator'
import { FieldRow, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Unfold } from '#ui/unfold'
import { readThisWayAction } from '../actions'
import { columnBox, fillableFields, fillBox, unitBox } from '../boxes'
import s from './preview.module.css'

type NamedField = Field & { name: string }

type MappingFormProps = {
  mapping: Mapping
  /** Those of the file's kind, with their words. */
  fields: NamedField[]
  /** Null for a workbook. */
  separator: Separator | null
  headers: string[]
  /** Some values of each column, by its place among the headers. */
  samples: string[]
  owners: string[]
  /** Sent along unseen. */
  hidden: Record<string, string>
}

/** Each field with the column it is read from; the fields the file has nothing for are folded away. */
export function MappingForm({ mapping, fields, separator, headers, samples, owners, hidden }: MappingFormProps) {
  const isFirst = ({ name, isRequired }: NamedField) =>
    isRequired || name === 'owner' || (mapping.columns[name] ?? null) !== null || mapping.defaults[name] !== undefined
  const [first, rest] = [fields.filter(isFirst), fields.filter((field) => !isFirst(field))]
  const hasDates = fields.some(({ name }) => ['bought', 'started', 'finished', 'due'].includes(name))
  const rowsOf = (some: NamedField[]) => (
    <table className={s.mapping}>
      <caption className="vh">{say('Which column each field is read from')}</caption>
      <thead className="vh">
        <tr>
          <th scope="col">{say('Field')}</th>
          <th scope="col">{say('Column of the file')}</th>
        </tr>
      </thead>
      <tbody>
        {some.map((field) => (
          <FieldRowOf key={field.name} field={field} mapping={mapping} headers={headers} samples={samples} owners={owners} />
        ))}
      </tbody>
    </table>
  )
  return (
    <Form
      action={readThisWayAction}
      submit={say('Read it this way')}
      pending={say('Reading')}
      submitKind="plain"
      label={say('Which column is which')}
      hidden={{
        ...hidden,
        kind: mapping.kind,
        separator: separator ?? '',
        ...(mapping.reading && { reading: JSON.stringify(mapping.reading) }),
      }}
    >
      {rowsOf(first)}
      {rest.length > 0 && (
        <Unfold
          label={say('{rest, plural, one {# more field} other {# more fields}} the file seems to have no column for', {
            rest: rest.length,
          })}
        >
          {rowsOf(rest)}
        </Unfold>
      )}
      <FieldRow>
        <SelectField
          name="decimalComma"
          label={say('1,240 means')}
          defaultValue={mapping.decimalComma ? 'yes' : 'no'}
          options={[
            { value: 'no', label: say('one thousand two hundred and forty') },
            { value: 'yes', label: say('one and a bit: the comma is decimal') },
          ]}
        />
        {mapping.kind === 'threads' && (
          <SelectField
            name="otherHome"
            label={say('Known, but in another drawer')}
            none={say('as the rest of the file suggests')}
            defaultValue={mapping.otherHome ?? ''}
            options={[
              { value: 'moved', label: say('it was moved there') },
              { value: 'beside', label: say('there is some in both') },
            ]}
          />
        )}
        {hasDates && (
          <SelectField
            name="monthFirst"
            label={say('1/3/2026 means')}
            defaultValue={mapping.monthFirst ? 'yes' : 'no'}
            options={[
              { value: 'no', label: say('1 March: the day first') },
              { value: 'yes', label: say('3 January: the month first') },
            ]}
          />
        )}
      </FieldRow>
    </Form>
  )
}

type FieldRowOfProps = Pick<MappingFormProps, 'mapping' | 'headers' | 'samples' | 'owners'> & { field: NamedField }

function FieldRowOf({ field, mapping, headers, samples, owners }: FieldRowOfProps) {
  const { name, label, help, isRequired, units } = field
  const [column, setColumn] = useState(String(mapping.columns[name] ?? ''))
  const isFillable = (fillableFields as readonly string[]).includes(name)
  const fill = mapping.defaults[name] ?? ''
  const values = column === '' ? '' : (samples[Number(column)] ?? '')
  return (
    <tr>
      <th scope="row">
        {label}
        {(isRequired || name === 'owner') && <span className={s.needed}> {say('needed')}</span>}
        <p>{help}</p>
      </th>
      <td>
        <div
          className={s.pick}
          onChange={(event) => {
            const { target } = event
            if (target instanceof HTMLSelectElement && target.name === columnBox(name)) setColumn(target.value)
          }}
        >
          <SelectField
            name={columnBox(name)}
            label={<span className="vh">{sayParts('{label}: column of the file', { label })}</span>}
            none={say('no column')}
            defaultValue={column}
            options={headers.map((header, index) => ({ value: String(index), label: header }))}
          />
          {units.length > 0 && (
            <SelectField
              name={unitBox(name)}
              label={<span className="vh">{sayParts('{label}: what a bare figure is counted in', { label })}</span>}
              defaultValue={mapping.units[name] ?? units[0]}
              options={units.map((unit: ColumnUnit) => ({ value: unit, label: unit }))}
            />
          )}
        </div>
        {values !== '' && <p className={s.values}>{values}</p>}
        {isFillable && (column === '' || fill !== '') && (
          <TextField
            name={fillBox(name)}
            label={
              <>
                {column === '' ? say('For every row') : say('For rows where it is blank')}
                <span className="vh">: {label}</span>
              </>
            }
            defaultValue={fill}
            suggestions={name === 'owner' ? owners : undefined}
            maxLength={100}
          />
        )}
      </td>
    </tr>
  )
}
