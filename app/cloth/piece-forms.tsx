import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { ClothDetail, ClothKin } from '#lib/db/cloth/queries'
import { clothEndings } from '#lib/db/cloth/remove-cloth'
import type { Owner } from '#lib/db/owner/owners'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { CheckField, ChoiceField, FieldRow, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PlaceLabelField } from '../_places/place-label-field'
import {
  cutClothAction,
  measureClothAction,
  moveClothAction,
  removeClothAction,
  restoreClothAction,
  returnClothAction,
  transferClothAction,
} from './actions'
import s from './piece-forms.module.css'
import { offcutRows } from './schema'
import { endingWords } from './words'

type PieceFormProps = { piece: ClothDetail; unit: LengthUnit }

const hiddenOf = ({ id, version }: ClothDetail) => ({ id, version: String(version) })

export function MeasureForm({ piece, unit }: PieceFormProps) {
  return (
    <Form
      action={measureClothAction}
      hidden={hiddenOf(piece)}
      submit={say('Write it down')}
      submitKind="plain"
      label={say('Measure the piece')}
      clearsWhenDone
    >
      <TextField
        name="size"
        label={say('It measures')}
        hint={say('Laid flat, width along the weft first: {isIn, select, yes {17½ x 26½ in} other {44 x 68 cm}}', {
          isIn: unit === 'in',
        })}
        isRequired
      />
      <CheckField
        name="isSquared"
        label={say('It is squared')}
        hint={say('Selvedge off and cut straight to a thread on all sides')}
        defaultChecked
      />
      <TextField name="note" label={say('Note')} maxLength={300} />
    </Form>
  )
}

export function CutForm({ piece, unit, placeLabels }: PieceFormProps & { placeLabels: readonly string[] }) {
  const example = unit === 'in' ? '6 x 27 in' : '15 x 70 cm'
  return (
    <Form
      action={cutClothAction}
      hidden={hiddenOf(piece)}
      submit={say('The cut is made')}
      label={say('Cut the piece')}
      clearsWhenDone
    >
      {piece.reservedBy.length > 0 && (
        <SelectField
          name="projectId"
          label={say('Cut for')}
          options={piece.reservedBy.map(({ projectId, title }) => ({ value: projectId, label: title }))}
          none={say('something else')}
          defaultValue={piece.reservedBy[0]?.projectId}
        />
      )}
      <ChoiceField
        name="becomes"
        label={say('What has become of the piece')}
        options={[
          { value: 'smaller', label: say('It is smaller now') },
          { value: 'gone', label: say('None of it is left but the offcuts') },
        ]}
        defaultValue="smaller"
      />
      <TextField
        name="remaining"
        label={say('The piece measures now')}
        hint={say('When it is smaller: width along the weft first. It was {piece}.', { piece: formatClothSize(piece, unit) })}
        width="half"
      />
      {offcutRows.map((row) => (
        <FieldRow key={row}>
          <TextField
            name={`size${row}`}
            label={say('Offcut {row}', { row })}
            hint={row === 1 ? say('Its size, as measured: {example}', { example }) : undefined}
            width="half"
          />
          <TextField
            name={`label${row}`}
            label={say('Its label')}
            hint={row === 1 ? say('Written on it before it is put away') : undefined}
            width="half"
            maxLength={60}
          />
          <TextField
            name={`place${row}`}
            label={say('Its place')}
            hint={row === 1 ? say('Left out: {label}', { label: piece.home?.label ?? say('where the piece lies') }) : undefined}
            suggestions={placeLabels}
            width="half"
            maxLength={60}
          />
        </FieldRow>
      ))}
      <TextField name="note" label={say('Note')} maxLength={300} />
    </Form>
  )
}

export function MoveForm({ piece, placeLabels }: { piece: ClothDetail; placeLabels: readonly string[] }) {
  const isOut = piece.home !== null && piece.current !== null && piece.home.id !== piece.current.id
  return (
    <div className={s.move}>
      {isOut && (
        <Form
          action={returnClothAction}
          hidden={hiddenOf(piece)}
          submit={say('Put back in {label}', { label: piece.home?.label })}
          isInline
        />
      )}
      <Form
        action={moveClothAction}
        hidden={hiddenOf(piece)}
        submit={say('Move it')}
        submitKind="plain"
        label={say('Move the piece')}
        clearsWhenDone
      >
        <PlaceLabelField label={say('To')} placeLabels={placeLabels} maxLength={60} />
        <CheckField name="becomesHome" label={say('It lives there from now on')} />
      </Form>
    </div>
  )
}

/** For a piece that was taken out of the larder: the way back. */
export const RestoreForm = ({ piece }: { piece: ClothDetail }) => (
  <Form action={restoreClothAction} hidden={hiddenOf(piece)} submit={say('Put it back')} submitKind="plain" isInline />
)

type LeaveProps = { piece: ClothDetail; owners: readonly Owner[] }

/** Ways a piece leaves: to another owner, or out of the larder. */
export function LeaveDialogs({ piece, owners }: LeaveProps) {
  const others = owners.filter(({ id }) => id !== piece.ownerId)
  return (
    <>
      {others.length > 0 && (
        <ConfirmDialog
          opener={say('Pass to another owner')}
          title={say('Pass it to another owner?')}
          confirm={say('Pass it on')}
          action={transferClothAction}
          hidden={hiddenOf(piece)}
        >
          <SelectField name="toOwnerId" label={say('To')} options={others.map(({ id, name }) => ({ value: id, label: name }))} />
          <TextField name="reason" label={say('Why')} maxLength={300} />
        </ConfirmDialog>
      )}
      <ConfirmDialog
        opener={say('Take it out of the larder')}
        title={say('Take this piece out of the larder?')}
        confirm={say('Take it out')}
        action={removeClothAction}
        hidden={hiddenOf(piece)}
      >
        <ChoiceField
          name="ending"
          label={say('Why')}
          options={clothEndings.map((value) => ({ value, label: endingWords[value] }))}
          defaultValue="used"
        />
        <TextField name="note" label={say('Note')} maxLength={300} />
      </ConfirmDialog>
    </>
  )
}

/** A piece in a family of cuts, in a few words. */
export const kinWords = (kin: ClothKin, unit: LengthUnit): string =>
  [kin.label ?? kin.name, formatClothSize(kin, unit), kin.isGone && say('gone')].filter(Boolean).join(', ')
