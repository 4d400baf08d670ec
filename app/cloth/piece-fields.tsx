import { type ClothInput, sizeCertainties } from '#lib/db/cloth/add-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { CheckField, ChoiceField, FieldRow, SelectField, TextArea, TextField } from '#ui/field'
import { cardTexts } from './schema'

const certaintyLabels = { measured: 'I measured it', label: 'its label says so', guess: 'I guess' }

type PieceFieldsProps = { unit: LengthUnit; held?: ClothInput }

/** What is written on a piece's card. */
export function PieceFields({ unit, held }: PieceFieldsProps) {
  const shown = held && cardTexts(held, unit)
  return (
    <>
      <FieldRow>
        <TextField
          name="name"
          label="Cloth"
          hint="Linen, or the name on its band"
          defaultValue={held?.name}
          width="half"
          isRequired
          autoFocus={!held}
        />
        <TextField name="colourName" label="Colour" defaultValue={held?.colourName ?? ''} width="half" />
      </FieldRow>
      <FieldRow>
        <TextField name="makerName" label="Maker" defaultValue={held?.makerName ?? ''} width="half" />
        <TextField
          name="label"
          label="Label"
          hint="If the piece carries one: L-12"
          defaultValue={held?.label ?? ''}
          maxLength={60}
          width="half"
        />
      </FieldRow>
      <ChoiceField
        name="weave"
        label="Woven"
        isRequired
        options={[
          { value: 'single', label: 'in single threads', note: 'Evenweave, linen: worked over one or two threads.' },
          { value: 'block', label: 'in blocks', note: 'Worked over its blocks.' },
        ]}
        defaultValue={held?.weave ?? 'single'}
      />
      <FieldRow>
        <TextField
          name="count"
          label="Count"
          hint="28, or 34 x 31 (ends, then picks) when it is not the same both ways, or 110/10cm"
          defaultValue={shown?.count ?? ''}
          width="half"
          isRequired
        />
        <TextField
          name="size"
          label="Size"
          hint={`Width along the weft first: ${unit === 'in' ? '18 x 27 in' : '45 x 70 cm'}`}
          defaultValue={shown?.size ?? ''}
          width="half"
          isRequired
        />
      </FieldRow>
      <SelectField
        name="sizeCertainty"
        label="How the size is known"
        options={sizeCertainties.map((value) => ({ value, label: certaintyLabels[value] }))}
        defaultValue={held?.sizeCertainty ?? 'measured'}
        width="half"
      />
      <CheckField
        name="isSquared"
        label="It is squared"
        hint="Selvedge off and cut straight to a thread, then measured"
        defaultChecked={held?.isSquared ?? false}
      />
      <CheckField
        name="isTurnable"
        label="It may be turned"
        hint="Not where a stripe, a printed grid, the dye or strong slubs run one way"
        defaultChecked={held?.isTurnable ?? true}
      />
      <TextField
        name="hex"
        label="Colour in figures"
        hint="As #e8dfc9, if it is to be drawn in its colour"
        defaultValue={shown?.hex ?? ''}
        width="half"
      />
      <TextArea name="note" label="Note" defaultValue={held?.note ?? ''} rows={3} />
    </>
  )
}
