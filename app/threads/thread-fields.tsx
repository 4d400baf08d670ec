import { say } from '#language/say'
import { colourFamilies } from '#lib/colour/family'
import type { LabCertainty } from '#lib/colour/lab'
import type { LinePutUp } from '#lib/db/thread/add-thread'
import type { ThreadNamed } from '#lib/db/thread/find-thread'
import { formatPrice } from '#lib/quantity/money'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { ThreadLine } from '#lib/thread/thread'
import { CheckField, ChoiceField, FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { singular } from '#words/amounts'
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
          label={say('Code')}
          isRequired
          defaultValue={thread?.code}
          hint={say('Exactly as on the label, zeros and all.')}
          maxLength={100}
        />
        <TextField
          name="name"
          label={say('Colour name')}
          defaultValue={thread?.name ?? ''}
          hint={say('As the maker calls it.')}
          maxLength={200}
        />
      </FieldRow>
      <ColourFields
        name="lab"
        label={say('Colour')}
        defaultText={thread?.lab ? formatColour(thread.lab) : ''}
        certainty={{ known: thread?.labCertainty ?? null }}
      />
      <FieldRow>
        <SelectField
          name="family"
          label={say('Filed under')}
          none={say('the family of its colour')}
          defaultValue={thread?.family ?? ''}
          options={colourFamilies.map((family) => ({ value: family, label: familyWord(family) }))}
          hint={say('Only where you would call it otherwise than its figures do.')}
        />
        <NumberField
          name="minimumPutUps"
          label={say('Keep at least')}
          isWhole
          defaultValue={thread?.minimumPutUps ?? ''}
          unit={say('put-ups')}
          hint={say('Fewer free than this shows as low.')}
        />
      </FieldRow>
      <CheckField
        name="isLeaving"
        label={say('No longer made')}
        defaultChecked={thread?.isLeaving ?? false}
        hint={say('Or soon not to be: buy it before it goes.')}
      />
      <TextArea name="note" label={say('Note')} rows={3} defaultValue={thread?.note ?? ''} />
    </>
  )
}

type LineFieldsProps = { line?: ThreadLine & LinePutUp; currency: string; unit: ThreadLengthUnit; makerNames: readonly string[] }

/** What a line is like, for all its threads. */
export function LineFields({ line, currency, unit, makerNames }: LineFieldsProps) {
  return (
    <>
      <FieldRow>
        <TextField name="makerName" label={say('Maker')} isRequired defaultValue={line?.makerName} suggestions={makerNames} />
        <TextField
          name="lineName"
          label={say('Line')}
          defaultValue={line?.name}
          hint={say('Stranded cotton, silk, metallic. May stay empty for a maker with one line.')}
        />
      </FieldRow>
      <FieldRow>
        <TextField
          name="fibre"
          label={say('Fibre')}
          defaultValue={line?.fibre ?? ''}
          suggestions={['cotton', 'silk', 'wool', 'linen']}
        />
        <NumberField
          name="strands"
          label={say('Strands')}
          isWhole
          isRequired
          defaultValue={line?.strands ?? 6}
          hint={say('It parts into; 1 if it does not.')}
        />
      </FieldRow>
      <FieldRow>
        <TextField
          name="putUpTenths"
          label={say('Length of one')}
          isRequired
          defaultValue={exactLength((line?.putUpStrandTenths ?? 480_000) / (line?.strands ?? 6), unit)}
          hint={say('As sold, all strands together: 8 m or 5 yd.')}
        />
        <TextField
          name="putUpWord"
          label={say('One is called a')}
          isRequired
          defaultValue={singular(line?.putUpWord ?? 'skein')}
          suggestions={['skein', 'hank', 'spool', 'card', 'ball'].map(singular)}
        />
      </FieldRow>
      <FieldRow>
        <NumberField
          name="putUpGrams"
          label={say('Thread in a full one weighs')}
          defaultValue={line?.putUpMilligrams == null ? '' : line.putUpMilligrams / 1_000}
          unit="g"
          hint={say('Without band, card or core. A part can then be measured by weighing it.')}
        />
        <NumberField
          name="price"
          label={say('One costs')}
          defaultValue={line?.priceMinor == null ? '' : formatPrice(line.priceMinor, null)}
          unit={currency}
          hint={say('For the shopping list.')}
        />
      </FieldRow>
      <ChoiceField
        name="dyeing"
        label={say('Dyed')}
        defaultValue={line?.dyeing ?? 'solid'}
        options={[
          { value: 'solid', label: say('Solid'), note: say('one colour throughout') },
          { value: 'variegated', label: say('Variegated'), note: say('one colour shading light to dark') },
          { value: 'overdyed', label: say('Overdyed or hand-dyed'), note: say('irregular tones, no two skeins quite alike') },
        ]}
      />
      <ChoiceField
        name="working"
        label={say('Crosses are worked')}
        defaultValue={line?.working ?? 'rows'}
        options={[
          { value: 'rows', label: say('In rows'), note: say('all first legs, then all top legs') },
          {
            value: 'crosses',
            label: say('One by one'),
            note: say('takes a little more thread; usual where tones should stay together'),
          },
        ]}
      />
      <CheckField
        name="lotsMatter"
        label={say('Dye lots matter')}
        defaultChecked={line?.lotsMatter ?? false}
        hint={say('All of one colour in a design then has to come from one lot.')}
      />
    </>
  )
}
