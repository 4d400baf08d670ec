import { say } from '#language/say'
import { listFinishings } from '#lib/cloth/margins'
import type { ProjectDetail } from '#lib/db/project/queries'
import type { StartChoices } from '#lib/db/project/start-choices'
import type { Occasion } from '#lib/planning/days/occasions'
import { mostStars } from '#lib/planning/together/wish-value'
import type { Settings } from '#lib/settings/settings'
import { DateField, FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Unfold } from '#ui/unfold'
import { counted } from '#words/amounts'
import { fitWords, pieceDescription, pieceName } from '#words/cloth'
import { editProjectAction } from '../actions'
import { OccasionField } from './occasion-field'

type DetailsFormProps = {
  project: ProjectDetail
  choices: StartChoices | null
  settings: Settings
  occasions: readonly Occasion[]
}

/** All that was set down about a project. What decides the threads can change only until it is kitted. */
export function DetailsForm({ project, choices, settings, occasions }: DetailsFormProps) {
  const isOpenToChange = project.status === 'wanted' || project.status === 'planned'
  const fixed = {
    threadListId: project.threadList?.id ?? '',
    clothPieceId: project.clothPiece?.id ?? '',
    over: project.over === null ? '' : String(project.over),
    quantity: String(project.quantity - project.spares),
    spares: String(project.spares),
  }
  const { clothPiece: own } = project
  const pieces = [...(choices?.cloth.advised ?? []), ...(choices?.cloth.other ?? [])]
  return (
    <Unfold label={say('Change the details')}>
      <Form
        action={editProjectAction}
        submit={say('Save')}
        hidden={{ projectId: project.id, version: String(project.version), ...(isOpenToChange ? {} : fixed) }}
      >
        {isOpenToChange && (
          <>
            <FieldRow>
              <SelectField
                name="threadListId"
                label={say('Thread list')}
                none={say('None')}
                defaultValue={fixed.threadListId}
                options={(choices?.lists ?? []).map(({ id, name }) => ({ value: id, label: name }))}
                width="half"
              />
              <NumberField name="quantity" label={say('How many')} defaultValue={fixed.quantity} isWhole />
              <NumberField
                name="spares"
                label={say('Spare kits')}
                defaultValue={fixed.spares}
                isWhole
                hint={say('Beside them')}
              />
            </FieldRow>
            <FieldRow>
              <SelectField
                name="clothPieceId"
                label={say('Cloth')}
                none={say('None for now')}
                defaultValue={fixed.clothPieceId}
                options={[
                  ...(own ? [{ value: own.id, label: pieceName(own) }] : []),
                  ...pieces
                    .filter(({ piece }) => piece.id !== own?.id)
                    .slice(0, 60)
                    .map(({ piece, fit }) => ({
                      value: piece.id,
                      label: `${pieceName(piece)}: ${pieceDescription(piece)}, ${fitWords(fit, settings.lengthUnit)}`,
                    })),
                ]}
              />
              <SelectField
                name="over"
                label={say('Worked over')}
                none={say('As the chart says')}
                defaultValue={fixed.over}
                options={[
                  { value: '1', label: say('One thread') },
                  { value: '2', label: say('Two threads') },
                ]}
                width="half"
              />
            </FieldRow>
          </>
        )}
        <FieldRow>
          <TextField name="forWhom" label={say('For whom')} defaultValue={project.forWhom ?? ''} maxLength={120} width="half" />
          <OccasionField occasionKey={project.occasionKey} occasions={occasions} />
          <DateField key={project.dueOn} name="dueOn" label={say('Due')} defaultValue={project.dueOn ?? ''} />
          <SelectField
            name="stars"
            label={say('Wished for')}
            none={say('No stars')}
            defaultValue={project.stars === null ? '' : String(project.stars)}
            options={Array.from({ length: mostStars }, (_, at) => ({ value: String(at + 1), label: counted(at + 1, 'star') }))}
          />
          <DateField name="plannedOn" label={say('To be begun')} defaultValue={project.plannedOn ?? ''} />
        </FieldRow>
        <FieldRow>
          <TextField
            name="finishing"
            label={say('Finishing')}
            hint={say('Framed, flat-fold, pillow; and by whom')}
            defaultValue={project.finishing ?? ''}
            suggestions={listFinishings(settings).map(({ name }) => name)}
            maxLength={60}
            width="half"
          />
          <NumberField
            name="finishingWeeks"
            label={say('Weeks at the finisher')}
            unit={say('weeks')}
            isWhole
            defaultValue={project.finishingWeeks ?? ''}
            placeholder={String(settings.planning.finishingWeeks)}
          />
        </FieldRow>
        <FieldRow>
          <NumberField name="hoursTenths" label={say('Hours in all')} unit="h" defaultValue={project.hoursTenths / 10} />
          <NumberField name="stitchesDone" label={say('Stitches in all')} isWhole defaultValue={project.stitchesDone} />
        </FieldRow>
        <TextArea name="note" label={say('Note')} defaultValue={project.note ?? ''} rows={3} />
      </Form>
    </Unfold>
  )
}
