import { say } from '#language/say'
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
          label={say('What it is')}
          options={notionKinds.map((kind) => ({ value: kind, label: notionKindWords[kind].many }))}
          defaultValue={held?.kind}
          none={held ? undefined : say('choose')}
          width="half"
          isRequired
        />
        <TextField
          name="size"
          label={say('Size')}
          hint={say('As it is sold: 10 in, 25 cm, size 26, 11/0')}
          defaultValue={held?.size ?? undefined}
          maxLength={60}
          width="half"
        />
      </FieldRow>
      <TextField
        name="name"
        label={say('What it is called')}
        hint={say('Big hoop, tapestry needles, small scissors')}
        defaultValue={held?.name}
        maxLength={120}
        isRequired
      />
      <FieldRow>
        <NumberField
          name="minimum"
          label={say('At least')}
          hint={say('Fewer, and it is to be bought')}
          defaultValue={held?.minimum ?? undefined}
          isWhole
        />
        <NumberField
          name="packOf"
          label={say('In a pack')}
          hint={say('Where it is sold in packs')}
          defaultValue={held?.packOf ?? undefined}
          isWhole
        />
        <NumberField
          name="price"
          label={say('Price of one')}
          hint={say('Of a pack, where it is sold so')}
          defaultValue={held?.priceMinor == null ? undefined : formatPrice(held.priceMinor, null)}
        />
      </FieldRow>
      <TextArea name="note" label={say('Note')} defaultValue={held?.note ?? undefined} rows={3} />
    </>
  )
}
