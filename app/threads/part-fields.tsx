import { say } from '#language/say'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { Batch } from '#lib/stock/batch'
import type { ThreadLine } from '#lib/thread/thread'
import { FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { plural, threadLength } from '#words/amounts'

type PartFieldsProps = {
  line: Pick<ThreadLine, 'strands' | 'putUpWord'>
  unit: ThreadLengthUnit
  /** Whether what a full one weighs is known, so that a part can be weighed. */
  canWeigh: boolean
  batch?: Pick<Batch, 'wholePutUps' | 'partStrandTenths' | 'partCertainty' | 'putUpWord'>
}

/** How much: whole put-ups, and a part by its length, as a fraction or by its weight. */
export function PartFields({ line, unit, canWeigh, batch }: PartFieldsProps) {
  const words = plural(batch?.putUpWord ?? line.putUpWord)
  const part =
    batch?.partCertainty === 'some'
      ? 'some'
      : batch && batch.partStrandTenths > 0
        ? threadLength(batch.partStrandTenths, line.strands, unit)
        : ''
  const isKnown = batch?.partCertainty === 'measured' || batch?.partCertainty === 'label' || batch?.partCertainty === 'guess'
  return (
    <>
      <NumberField
        name="wholePutUps"
        label={say('Whole {words}', { words })}
        isWhole
        defaultValue={batch?.wholePutUps ?? ''}
        unit={words}
      />
      <FieldRow>
        <TextField
          name="part"
          label={say('And a part of')}
          defaultValue={part}
          placeholder={`2.5 ${unit}`}
          hint={
            canWeigh
              ? say('A length (2.5 {unit}), a fraction of a full one (1/2), its weight (3.1 g), or “some”.', { unit })
              : say('A length (2.5 {unit}), a fraction of a full one (1/2), or “some”.', { unit })
          }
          suggestions={['1/4', '1/2', '3/4', 'some']}
          maxLength={100}
        />
        <SelectField
          name="partCertainty"
          label={say('How it is known')}
          defaultValue={isKnown ? batch.partCertainty : ''}
          hint={say('As written: a length or weight is measured, a fraction a guess.')}
          options={[
            { value: '', label: say('as written') },
            { value: 'measured', label: say('measured') },
            { value: 'label', label: say('by its label') },
            { value: 'guess', label: say('a guess') },
          ]}
        />
      </FieldRow>
    </>
  )
}
