import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { Batch } from '#lib/stock/batch'
import type { ThreadLine } from '#lib/thread/thread'
import { FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { plural, threadLength } from '#words/amounts'

type PartFieldsProps = {
  line: Pick<ThreadLine, 'strands' | 'putUpWord'>
  unit: ThreadLengthUnit
  batch?: Pick<Batch, 'wholePutUps' | 'partStrandTenths' | 'partCertainty'>
}

/** How much: whole put-ups, and a part with how it is known. */
export function PartFields({ line, unit, batch }: PartFieldsProps) {
  const part = batch && batch.partStrandTenths > 0 ? threadLength(batch.partStrandTenths, line.strands, unit) : ''
  return (
    <>
      <NumberField
        name="wholePutUps"
        label={`Whole ${plural(line.putUpWord)}`}
        isWhole
        defaultValue={batch?.wholePutUps ?? ''}
        unit={plural(line.putUpWord)}
      />
      <FieldRow>
        <TextField
          name="partStrandTenths"
          label="And a part of"
          defaultValue={part}
          placeholder={`2.5 ${unit}`}
          hint="The thread as it comes off, all strands together."
        />
        <SelectField
          name="partCertainty"
          label="The part is"
          defaultValue={batch?.partCertainty ?? 'none'}
          options={[
            { value: 'none', label: 'not there' },
            { value: 'measured', label: 'measured' },
            { value: 'label', label: 'by its label' },
            { value: 'guess', label: 'a guess' },
            { value: 'some', label: 'there, length unknown' },
          ]}
        />
      </FieldRow>
    </>
  )
}
