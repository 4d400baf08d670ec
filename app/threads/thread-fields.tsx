import { colourFamilies } from '#lib/colour/family'
import type { LabCertainty } from '#lib/colour/lab'
import type { LinePutUp } from '#lib/db/thread/add-thread'
import type { ThreadNamed } from '#lib/db/thread/find-thread'
import { formatPrice } from '#lib/quantity/money'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { ThreadLine } from '#lib/thread/thread'
import { CheckField, ChoiceField, FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { exactLength } from './amounts'
import { ColourFields } from './colour-picker'
import { formatColour } from './colour-text'
import { familyWord } from './colour-words'

type ThreadFieldsProps = {
  thread?: Pick<ThreadNamed, 'code' | 'name' | 'lab'> & {
    labCertainty: LabCertainty | null
    /** As filed by a person. */
    family: string | null
    isLeaving: boolean
    note: string | null
    minimumPutUps: number | null
  }
}

/** What a thread is called and looks like. */
export function ThreadFields({ thread }: ThreadFieldsProps) {
  return (
    <>
      <FieldRow>
        <TextField
          name="code"
          label="Code"
          isRequired
          defaultValue={thread?.code}
          hint="Exactly as on the label, zeros and all."
          maxLength={100}
        />
        <TextField
          name="name"
          label="Colour name"
          defaultValue={thread?.name ?? ''}
          hint="As the maker calls it."
          maxLength={200}
        />
      </FieldRow>
      <ColourFields
        name="lab"
        label="Colour"
        defaultText={thread?.lab ? formatColour(thread.lab) : ''}
        certainty={{ known: thread?.labCertainty ?? null }}
      />
      <FieldRow>
        <SelectField
          name="family"
          label="Filed under"
          none="the family of its colour"
          defaultValue={thread?.family ?? ''}
          options={colourFamilies.map((family) => ({ value: family, label: familyWord(family) }))}
          hint="Only where you would call it otherwise than its figures do."
        />
        <NumberField
          name="minimumPutUps"
          label="Keep at least"
          isWhole
          defaultValue={thread?.minimumPutUps ?? ''}
          unit="put-ups"
          hint="Fewer free than this shows as low."
        />
      </FieldRow>
      <CheckField
        name="isLeaving"
        label="No longer made"
        defaultChecked={thread?.isLeaving ?? false}
        hint="Or soon not to be: buy it before it goes."
      />
      <TextArea name="note" label="Note" rows={3} defaultValue={thread?.note ?? ''} />
    </>
  )
}

type LineFieldsProps = { line?: ThreadLine & LinePutUp; currency: string; unit: ThreadLengthUnit; makerNames: readonly string[] }

/** What a line is like, for all its threads. */
export function LineFields({ line, currency, unit, makerNames }: LineFieldsProps) {
  return (
    <>
      <FieldRow>
        <TextField name="makerName" label="Maker" isRequired defaultValue={line?.makerName} suggestions={makerNames} />
        <TextField
          name="lineName"
          label="Line"
          defaultValue={line?.name}
          hint="Stranded cotton, silk, metallic. May stay empty for a maker with one line."
        />
      </FieldRow>
      <FieldRow>
        <TextField
          name="fibre"
          label="Fibre"
          defaultValue={line?.fibre ?? ''}
          suggestions={['cotton', 'silk', 'wool', 'linen']}
        />
        <NumberField
          name="strands"
          label="Strands"
          isWhole
          isRequired
          defaultValue={line?.strands ?? 6}
          hint="It parts into; 1 if it does not."
        />
      </FieldRow>
      <FieldRow>
        <TextField
          name="putUpTenths"
          label="Length of one"
          isRequired
          defaultValue={exactLength((line?.putUpStrandTenths ?? 480_000) / (line?.strands ?? 6), unit)}
          hint="As sold, all strands together: 8 m or 5 yd."
        />
        <TextField
          name="putUpWord"
          label="One is called a"
          isRequired
          defaultValue={line?.putUpWord ?? 'skein'}
          suggestions={['skein', 'hank', 'spool', 'card', 'ball']}
        />
      </FieldRow>
      <FieldRow>
        <NumberField
          name="putUpGrams"
          label="Thread in a full one weighs"
          defaultValue={line?.putUpMilligrams == null ? '' : line.putUpMilligrams / 1_000}
          unit="g"
          hint="Without band, card or core. A part can then be measured by weighing it."
        />
        <NumberField
          name="price"
          label="One costs"
          defaultValue={line?.priceMinor == null ? '' : formatPrice(line.priceMinor, null)}
          unit={currency}
          hint="For the shopping list."
        />
      </FieldRow>
      <ChoiceField
        name="dyeing"
        label="Dyed"
        defaultValue={line?.dyeing ?? 'solid'}
        options={[
          { value: 'solid', label: 'Solid', note: 'one colour throughout' },
          { value: 'variegated', label: 'Variegated', note: 'one colour shading light to dark' },
          { value: 'overdyed', label: 'Overdyed or hand-dyed', note: 'irregular tones, no two skeins quite alike' },
        ]}
      />
      <ChoiceField
        name="working"
        label="Crosses are worked"
        defaultValue={line?.working ?? 'rows'}
        options={[
          { value: 'rows', label: 'In rows', note: 'all first legs, then all top legs' },
          { value: 'crosses', label: 'One by one', note: 'takes a little more thread; usual where tones should stay together' },
        ]}
      />
      <CheckField
        name="lotsMatter"
        label="Dye lots matter"
        defaultChecked={line?.lotsMatter ?? false}
        hint="All of one colour in a design then has to come from one lot."
      />
    </>
  )
}
