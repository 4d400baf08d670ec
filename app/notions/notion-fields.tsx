import { type NotionCard, notionKinds } from '#lib/notion/notion'
import { formatPrice } from '#lib/quantity/money'
import { FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { notionKindWords } from '#words/notion'

/** The fields of a notion's card. */
export function NotionFields({ held }: { held?: NotionCard }) {
  return (
    <>
      <FieldRow>
        <SelectField
          name="kind"
          label="What it is"
          options={notionKinds.map((kind) => ({ value: kind, label: notionKindWords[kind].many }))}
          defaultValue={held?.kind}
          none={held ? undefined : 'choose'}
          width="half"
          isRequired
        />
        <TextField
          name="size"
          label="Size"
          hint="As it is sold: 10 in, 25 cm, size 26, 11/0"
          defaultValue={held?.size ?? undefined}
          maxLength={60}
          width="half"
        />
      </FieldRow>
      <TextField
        name="name"
        label="What it is called"
        hint="Big hoop, tapestry needles, small scissors"
        defaultValue={held?.name}
        maxLength={120}
        isRequired
      />
      <FieldRow>
        <NumberField
          name="minimum"
          label="At least"
          hint="Fewer, and it is to be bought"
          defaultValue={held?.minimum ?? undefined}
          isWhole
        />
        <NumberField
          name="packOf"
          label="In a pack"
          hint="Where it is sold in packs"
          defaultValue={held?.packOf ?? undefined}
          isWhole
        />
        <NumberField
          name="price"
          label="Price of one"
          hint="Of a pack, where it is sold so"
          defaultValue={held?.priceMinor == null ? undefined : formatPrice(held.priceMinor, null)}
        />
      </FieldRow>
      <TextArea name="note" label="Note" defaultValue={held?.note ?? undefined} rows={3} />
    </>
  )
}
