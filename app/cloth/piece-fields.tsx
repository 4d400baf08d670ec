import { clothDyeings, oneWayReasons, type Weave, washStates } from '#lib/cloth/cloth-piece'
import { type ClothInput, sizeCertainties } from '#lib/db/cloth/add-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { type Count, formatCount } from '#lib/quantity/count'
import { Word } from '#trade/word'
import { CheckField, ChoiceField, DateField, FieldRow, SelectField, TextArea, TextField } from '#ui/field'
import { dyeingWords, oneWayWords, washWords } from '#words/cloth-care'
import { cardTexts, turningText } from './schema'

const certaintyLabels = { measured: 'I measured it', label: 'its label says so', guess: 'I guess' }
const countedLabels = { ...certaintyLabels, measured: 'I counted it' }

type PieceFieldsProps = {
  unit: LengthUnit
  /** yyyy-mm-dd */
  today: string
  held?: ClothInput
  /** Found along a ruler just now. */
  counted?: { ends: Count; picks: Count; weave: Weave }
}

/** What is written on a piece's card. */
export function PieceFields({ unit, today, held, counted }: PieceFieldsProps) {
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
        label={<Word of="weave">Woven</Word>}
        isRequired
        options={[
          { value: 'single', label: 'in single threads', note: 'Evenweave, linen: worked over one or two threads.' },
          { value: 'block', label: 'in blocks', note: 'Worked over its blocks.' },
        ]}
        defaultValue={held?.weave ?? counted?.weave ?? 'single'}
      />
      <FieldRow>
        <TextField
          name="count"
          label={<Word of="count">Count</Word>}
          hint="28, or 34 x 31 (ends, then picks) when it is not the same both ways, or 110/10cm"
          defaultValue={shown?.count ?? (counted && formatCount(counted.ends, counted.picks)) ?? ''}
          width="half"
          isRequired
        />
        <SelectField
          name="countCertainty"
          label="How the count is known"
          options={sizeCertainties.map((value) => ({ value, label: countedLabels[value] }))}
          defaultValue={held?.countCertainty ?? (counted ? 'measured' : 'label')}
          width="half"
        />
      </FieldRow>
      <FieldRow>
        <TextField
          name="size"
          label="Size"
          hint={`Width along the weft first: ${unit === 'in' ? '18 x 27 in' : '45 x 70 cm'}`}
          defaultValue={shown?.size ?? ''}
          width="half"
          isRequired
        />
        <SelectField
          name="sizeCertainty"
          label="How the size is known"
          options={sizeCertainties.map((value) => ({ value, label: certaintyLabels[value] }))}
          defaultValue={held?.sizeCertainty ?? 'measured'}
          width="half"
        />
      </FieldRow>
      <CheckField
        name="isSquared"
        label="It is squared"
        hint="Selvedge off and cut straight to a thread, then measured"
        defaultChecked={held?.isSquared ?? false}
      />
      <FieldRow>
        <SelectField
          name="dyeing"
          label="How it came by its colour"
          none="nobody said"
          options={clothDyeings.map((value) => ({ value, label: dyeingWords[value] }))}
          defaultValue={held?.dyeing ?? ''}
          width="half"
        />
        <SelectField
          name="turning"
          label="Which way round it may lie"
          hint="Asked of hand-dyed cloth, and of cloth whose count is not square"
          none={held ? undefined : 'not said'}
          options={[
            { value: 'either', label: 'either way round' },
            ...oneWayReasons.map((value) => ({ value, label: oneWayWords[value], group: 'Upright only, because' })),
            { value: 'unsaid', label: 'nobody said why', group: 'Upright only, because' },
          ]}
          defaultValue={held ? turningText(held) : ''}
          width="half"
        />
      </FieldRow>
      <FieldRow>
        <SelectField
          name="washState"
          label="Washing"
          hint="Not to be washed: old, fragile, beaded or of mixed materials"
          options={washStates.map((value) => ({ value, label: washWords[value] }))}
          defaultValue={held?.washState ?? 'unknown'}
          width="half"
        />
        <DateField
          name="washedOn"
          label="Washed on"
          hint="If it was, and the day is known"
          defaultValue={held?.washedOn ?? ''}
          max={today}
        />
      </FieldRow>
      <TextField
        name="hex"
        label="Colour in figures"
        hint="As #e8dfc9: it is drawn in its colour, and dark and red cloth is known by it"
        defaultValue={shown?.hex ?? ''}
        width="half"
      />
      <TextArea name="note" label="Note" defaultValue={held?.note ?? ''} rows={3} />
    </>
  )
}
