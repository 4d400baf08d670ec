import { say } from '#language/say'
import { coverKinds } from '#lib/chart/design'
import { weaves } from '#lib/cloth/cloth-piece'
import type { DesignInput } from '#lib/db/chart/add-design'
import type { ChartOptions } from '#lib/db/chart/queries'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { allowanceProfileNames } from '#lib/thread/allowance'
import { CheckField, FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { Unfold } from '#ui/unfold'
import { adviceText, designSizeText } from './design-text'
import s from './fields.module.css'
import { allowanceWords, coverWords, weaveWords } from './words'

type DesignFieldsProps = {
  held?: DesignInput
  options: ChartOptions
  unit: LengthUnit
  /** The first design of a new chart: it may go by the chart's title. */
  isFirst?: boolean
}

/** What a design is, apart from its thread lists. */
export function DesignFields({ held, options, unit, isFirst = false }: DesignFieldsProps) {
  const rest = <RestFields held={held} options={options} />
  return (
    <>
      <TextField
        name="designTitle"
        label={say('Title of the design')}
        hint={isFirst ? say('If it is not that of the chart') : undefined}
        defaultValue={held?.title}
        maxLength={200}
        isRequired={!isFirst}
        autoFocus={!held && !isFirst}
      />
      <FieldRow>
        <TextField
          name="size"
          label={say('Size')}
          hint={say('140 x 98 in stitches, or {isIn, select, yes {8 x 6 in} other {20 x 15 cm}} as ruled', {
            isIn: unit === 'in',
          })}
          defaultValue={held && designSizeText(held.size, unit)}
        />
        <TextField
          name="count"
          label={say('Count it advises')}
          hint={say('28 over 2, 14, or 110/10cm over 2')}
          defaultValue={held?.advised ? adviceText(held.advised) : ''}
        />
      </FieldRow>
      <FieldRow>
        <TextField
          name="season"
          label={say('Season or occasion')}
          hint={say('Several are parted by commas')}
          defaultValue={held?.themes.season.join(', ')}
          suggestions={options.themes.season}
        />
        <TextField
          name="subject"
          label={say('Subject')}
          hint={say('Birds, houses')}
          defaultValue={held?.themes.subject.join(', ')}
          suggestions={options.themes.subject}
        />
        <TextField
          name="form"
          label={say('Form')}
          hint={say('Ornament, band sampler')}
          defaultValue={held?.themes.form.join(', ')}
          suggestions={options.themes.form}
        />
      </FieldRow>
      {isFirst ? <Unfold label={say('Cloth, cover and note')}>{rest}</Unfold> : rest}
    </>
  )
}

function RestFields({ held, options }: Pick<DesignFieldsProps, 'held' | 'options'>) {
  return (
    <div className={s.stack}>
      <FieldRow>
        <SelectField
          name="weave"
          label={say('Weave it advises')}
          options={weaves.map((value) => ({ value, label: weaveWords[value] }))}
          none={say('not said')}
          defaultValue={held?.weave ?? ''}
        />
        <TextField
          name="clothName"
          label={say('Cloth it names')}
          defaultValue={held?.clothName ?? ''}
          suggestions={options.clothNames}
          maxLength={120}
        />
      </FieldRow>
      <CheckField
        name="insistsOnWeave"
        label={say('No other weave will do')}
        hint={say('It has stitches that need single threads, or blocks')}
        defaultChecked={held?.insistsOnWeave ?? false}
      />
      <SelectField
        name="coverKind"
        label={say('How much of it is stitched')}
        hint={say('Shares out the thread when the key gives no amounts')}
        options={coverKinds.map((value) => ({ value, label: coverWords[value] }))}
        none={say('not said')}
        defaultValue={held?.coverKind ?? ''}
        width="half"
      />
      <FieldRow>
        <SelectField
          name="allowance"
          label={say('Allowance for thread')}
          hint={say('For slack, starts and ends')}
          options={[
            ...allowanceProfileNames.map((value) => ({ value, label: allowanceWords()[value] })),
            { value: 'own', label: say('Its own') },
          ]}
          none={say('as in Settings')}
          defaultValue={held?.allowance?.profile ?? ''}
        />
        <NumberField
          name="ownAllowance"
          label={say('Its own allowance')}
          hint={say('Only where that is chosen: 1.45')}
          defaultValue={held?.allowance?.profile === 'own' ? held.allowance.hundredths / 100 : ''}
        />
      </FieldRow>
      <TextArea name="designNote" label={say('Note on the design')} defaultValue={held?.note ?? ''} rows={2} />
    </div>
  )
}
