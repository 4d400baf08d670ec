import type { ThreadNamed } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { ThreadLine } from '#lib/thread/thread'
import { CheckField, ChoiceField, FieldRow, NumberField, TextArea, TextField } from '#ui/field'
import { exactLength } from './amounts'
import { formatColour } from './colour-text'

type ThreadFieldsProps = {
  thread?: Pick<ThreadNamed, 'code' | 'name' | 'lab'> & { note: string | null; minimumPutUps: number | null }
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
      <FieldRow>
        <TextField
          name="lab"
          label="Colour"
          defaultValue={thread?.lab ? formatColour(thread.lab) : ''}
          hint="As #8e2f2b, or three Lab figures. A colour taken from a screen or photo is rough."
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
      <TextArea name="note" label="Note" rows={3} defaultValue={thread?.note ?? ''} />
    </>
  )
}

type LineFieldsProps = { line?: ThreadLine; unit: ThreadLengthUnit; makerNames: readonly string[] }

/** What a line is like, for all its threads. */
export function LineFields({ line, unit, makerNames }: LineFieldsProps) {
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
