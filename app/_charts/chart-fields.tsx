import { say } from '#language/say'
import { type ChartKind, chartKinds } from '#lib/chart/design'
import type { ChartDetail } from '#lib/db/chart/queries'
import type { Owner } from '#lib/db/owner/owners'
import { formatPrice } from '#lib/quantity/money'
import { DateField, FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { Unfold } from '#ui/unfold'
import s from './fields.module.css'
import { kindWords } from './words'

type ChartFieldsProps = {
  held?: ChartDetail
  /** What a new chart is taken to be at first, where something is known of it. */
  first?: { title: string; designers: readonly string[]; kind: ChartKind }
  owners: readonly Owner[]
  /** Whose it is taken to be at first. */
  ownerId?: string
  designerNames: readonly string[]
  currency: string
  /** Where a new chart lives is asked between what it is and the rest. */
  place?: React.ReactNode
}

/** What a chart is, apart from where it is. */
export function ChartFields({ held, first, owners, ownerId, designerNames, currency, place }: ChartFieldsProps) {
  const rest = <RestFields held={held} currency={currency} />
  return (
    <>
      <TextField
        name="title"
        label={say('Title')}
        defaultValue={held?.title ?? first?.title}
        maxLength={200}
        isRequired
        autoFocus={!held && !first}
      />
      <TextField
        name="designers"
        label={say('Designer')}
        hint={say('Several are parted by semicolons')}
        defaultValue={(held?.designers.map(({ name }) => name) ?? first?.designers)?.join('; ')}
        suggestions={designerNames}
        maxLength={1_000}
      />
      <FieldRow>
        <SelectField
          name="kind"
          label={say('What it is')}
          options={chartKinds.map((value) => ({ value, label: kindWords[value] }))}
          defaultValue={held?.kind ?? first?.kind ?? 'leaflet'}
        />
        <SelectField
          name="ownerId"
          label={say('Whose it is')}
          options={owners.map(({ id, name }) => ({ value: id, label: name }))}
          defaultValue={held?.owner.id ?? ownerId}
        />
      </FieldRow>
      {place}
      {held ? rest : <Unfold label={say('Copies, parts, price and date')}>{rest}</Unfold>}
    </>
  )
}

function RestFields({ held, currency }: Pick<ChartFieldsProps, 'held' | 'currency'>) {
  return (
    <div className={s.stack}>
      <FieldRow>
        <NumberField name="copies" label={say('Copies')} hint={say('Bought ones')} defaultValue={held?.copies ?? 1} isWhole />
        <NumberField
          name="partsHeld"
          label={say('Parts here')}
          hint={say('If it comes in parts')}
          defaultValue={held?.partsHeld ?? 1}
          isWhole
        />
        <NumberField
          name="partsNeeded"
          label={say('Parts in all')}
          hint={say('1 when it is whole')}
          defaultValue={held?.partsNeeded ?? 1}
          isWhole
        />
      </FieldRow>
      <FieldRow>
        <DateField name="boughtOn" label={say('Bought on')} defaultValue={held?.boughtOn ?? ''} />
        <NumberField
          name="price"
          label={say('Price of one')}
          unit={currency}
          defaultValue={held?.priceMinor === null || held === undefined ? '' : formatPrice(held.priceMinor, null)}
        />
        <TextField name="edition" label={say('Edition')} defaultValue={held?.edition ?? ''} maxLength={120} />
      </FieldRow>
      <TextArea name="note" label={say('Note')} defaultValue={held?.note ?? ''} rows={2} />
    </div>
  )
}
