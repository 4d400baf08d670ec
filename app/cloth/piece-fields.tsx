import { say, sayings } from '#language/say'
import { clothDyeings, oneWayReasons, type Weave, washStates } from '#lib/cloth/cloth-piece'
import { type ClothInput, sizeCertainties } from '#lib/db/cloth/add-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { Count } from '#lib/quantity/count'
import { Word } from '#trade/word'
import { CheckField, ChoiceField, DateField, FieldRow, SelectField, TextArea, TextField } from '#ui/field'
import { dyeingWords, oneWayWords, washWords } from '#words/cloth-care'
import { countWords } from '#words/cloth-count'
import { cardTexts, turningText } from './schema'

const certaintyLabels = sayings({ measured: 'I measured it', label: 'its label says so', guess: 'I guess' })
const countedLabels = () => ({ ...certaintyLabels, measured: say('I counted it') })

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
          label={say('Cloth')}
          hint={say('Linen, or the name on its band')}
          defaultValue={held?.name}
          width="half"
          isRequired
          autoFocus={!held}
        />
        <TextField name="colourName" label={say('Colour')} defaultValue={held?.colourName ?? ''} width="half" />
      </FieldRow>
      <FieldRow>
        <TextField name="makerName" label={say('Maker')} defaultValue={held?.makerName ?? ''} width="half" />
        <TextField
          name="label"
          label={say('Label')}
          hint={say('If the piece carries one: L-12')}
          defaultValue={held?.label ?? ''}
          maxLength={60}
          width="half"
        />
      </FieldRow>
      <ChoiceField
        name="weave"
        label={<Word of="weave">{say('Woven')}</Word>}
        isRequired
        options={[
          { value: 'single', label: say('in single threads'), note: say('Evenweave, linen: worked over one or two threads.') },
          { value: 'block', label: say('in blocks'), note: say('Worked over its blocks.') },
        ]}
        defaultValue={held?.weave ?? counted?.weave ?? 'single'}
      />
      <FieldRow>
        <TextField
          name="count"
          label={<Word of="count">{say('{as, select, other {Count}}')}</Word>}
          hint={say('28, or 34 x 31 (ends, then picks) when it is not the same both ways, or 110/10cm')}
          defaultValue={shown?.count ?? (counted && countWords(counted.ends, counted.picks)) ?? ''}
          width="half"
          isRequired
        />
        <SelectField
          name="countCertainty"
          label={say('How the count is known')}
          options={sizeCertainties.map((value) => ({ value, label: countedLabels()[value] }))}
          defaultValue={held?.countCertainty ?? (counted ? 'measured' : 'label')}
          width="half"
        />
      </FieldRow>
      <FieldRow>
        <TextField
          name="size"
          label={say('Size')}
          hint={say('Width along the weft first: {isIn, select, yes {18 x 27 in} other {45 x 70 cm}}', { isIn: unit === 'in' })}
          defaultValue={shown?.size ?? ''}
          width="half"
          isRequired
        />
        <SelectField
          name="sizeCertainty"
          label={say('How the size is known')}
          options={sizeCertainties.map((value) => ({ value, label: certaintyLabels[value] }))}
          defaultValue={held?.sizeCertainty ?? 'measured'}
          width="half"
        />
      </FieldRow>
      <CheckField
        name="isSquared"
        label={say('It is squared')}
        hint={say('Selvedge off and cut straight to a thread, then measured')}
        defaultChecked={held?.isSquared ?? false}
      />
      <FieldRow>
        <SelectField
          name="dyeing"
          label={say('How it came by its colour')}
          none={say('nobody said')}
          options={clothDyeings.map((value) => ({ value, label: dyeingWords[value] }))}
          defaultValue={held?.dyeing ?? ''}
          width="half"
        />
        <SelectField
          name="turning"
          label={say('Which way round it may lie')}
          hint={say('Asked of hand-dyed cloth, and of cloth whose count is not square')}
          none={held ? undefined : say('not said')}
          options={[
            { value: 'either', label: say('either way round') },
            ...oneWayReasons.map((value) => ({ value, label: oneWayWords[value], group: say('Upright only, because') })),
            { value: 'unsaid', label: say('nobody said why'), group: say('Upright only, because') },
          ]}
          defaultValue={held ? turningText(held) : ''}
          width="half"
        />
      </FieldRow>
      <FieldRow>
        <SelectField
          name="washState"
          label={say('Washing')}
          hint={say('Not to be washed: old, fragile, beaded or of mixed materials')}
          options={washStates.map((value) => ({ value, label: washWords[value] }))}
          defaultValue={held?.washState ?? 'unknown'}
          width="half"
        />
        <DateField
          name="washedOn"
          label={say('Washed on')}
          hint={say('If it was, and the day is known')}
          defaultValue={held?.washedOn ?? ''}
          max={today}
        />
      </FieldRow>
      <TextField
        name="hex"
        label={say('Colour in figures')}
        hint={say('As #e8dfc9: it is drawn in its colour, and dark and red cloth is known by it')}
        defaultValue={shown?.hex ?? ''}
        width="half"
      />
      <TextArea name="note" label={say('Note')} defaultValue={held?.note ?? ''} rows={3} />
    </>
  )
}
