import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { type CutYield, listYield } from '#lib/cloth/confirm-cut'
import { cutLetters } from '#lib/cloth/cut-steps'
import { findCutPlan } from '#lib/db/cut-plan/queries'
import { wishIndexOf } from '#lib/db/cut-plan/read-cut-choices'
import { suggestLabels } from '#lib/db/cut-plan/suggest-labels'
import { listPlaceOptions } from '#lib/db/place/queries'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { LinkButton } from '#ui/button'
import { CheckField, FieldRow, Suggestions, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { pieceDescription, pieceName } from '#words/cloth'
import { carryOutAction } from '../../actions'
import s from '../../cut.module.css'
import { partFields, wasCutField } from '../../schema'
import { shownPlan } from '../../shown-plan'

export const generateMetadata = (): Metadata => ({ title: say('It is cut') })

const placesId = 'places-of-parts'

type PageProps = { params: Promise<{ planId: string }> }

export default async function CarryOutPage({ params }: PageProps) {
  const [kept, { settings }, places] = await Promise.all([findCutPlan((await params).planId), getViewer(), listPlaceOptions()])
  if (!kept) notFound()
  if (kept.status !== 'kept') redirect(`/cloth/cut/${kept.id}`)
  const unit = settings.lengthUnit
  const { layouts } = kept.plan
  const { titles } = shownPlan(kept, kept.pieces, unit)
  const letters = cutLetters(layouts)
  const labels = await suggestLabels(layouts.map((layout) => ({ pieceId: layout.pieceId, parts: listYield(layout).length })))
  const partName = (part: CutYield): string => {
    if (part.kind === 'offcut') return say('Offcut {number}', { number: part.number })
    const wish = kept.asked.wishes[wishIndexOf(part.wishId)]
    const copy = wish && wish.copies > 1 ? say('copy {copy} of {copies}', { copy: part.copy, copies: wish.copies }) : ''
    return [letters.get(part.wishId), titles.get(part.wishId), copy].filter(Boolean).join(', ')
  }
  return (
    <>
      <PageHead
        title={say('It is cut')}
        crumbs={[
          { label: say('Cloth'), href: '/cloth' },
          { label: say('Plans of cuts'), href: '/cloth/cut' },
          { label: kept.title, href: `/cloth/cut/${kept.id}` },
          { label: say('It is cut') },
        ]}
        byline={say(
          'Measure every part, weft first, and write down what it is now. Each becomes a piece of its own; the pieces that were cut are gone. Nothing is written until all of it can be.',
        )}
      />
      <Suggestions id={placesId} suggestions={places.map(({ label }) => label)} />
      <div className={s.carry}>
        <Form
          action={carryOutAction}
          hidden={{ planId: kept.id, version: String(kept.version) }}
          submit={say('Write it down')}
          label={say('What was cut')}
          actions={<LinkButton href={`/cloth/cut/${kept.id}`}>{say('Not yet')}</LinkButton>}
        >
          {layouts.map((layout, at) => {
            const piece = kept.pieces.find(({ id }) => id === layout.pieceId)
            if (!piece) return null
            return (
              <fieldset key={layout.pieceId} className={s.carried}>
                <legend>
                  <b>{pieceName(piece)}</b>{' '}
                  <span className="quiet">{[pieceDescription(piece), formatClothSize(layout.root, unit)].join(', ')}</span>
                </legend>
                <CheckField
                  name={wasCutField(at)}
                  label={say('{pieceName} was cut', { pieceName: pieceName(piece) })}
                  hint={say('Taken off, it stays whole and is free again')}
                  defaultChecked
                />
                {listYield(layout).map((part, number) => (
                  <PartFields
                    key={part.key}
                    part={part}
                    names={partFields(at, part)}
                    title={partName(part)}
                    label={labels.get(layout.pieceId)?.[number] ?? ''}
                    place={piece.home?.label ?? piece.current?.label ?? null}
                    unit={unit}
                  />
                ))}
              </fieldset>
            )
          })}
          <TextField name="note" label={say('Note')} maxLength={300} />
        </Form>
      </div>
    </>
  )
}

type PartFieldsProps = {
  part: CutYield
  names: ReturnType<typeof partFields>
  title: string
  label: string
  place: string | null
  unit: LengthUnit
}

function PartFields({ part, names, title, label, place, unit }: PartFieldsProps) {
  return (
    <fieldset className={s.part}>
      <legend className="vh">{title}</legend>
      <CheckField
        name={names.kept}
        label={
          <>
            {title}
            {part.kind === 'wanted' && part.isTurned && say(', turned')}
          </>
        }
        hint={part.kind === 'offcut' ? say('Taken off, it is waste') : say('Taken off, it was spoilt and is waste')}
        defaultChecked
      />
      <FieldRow>
        <TextField
          name={names.size}
          label={say('It measures')}
          hint={say('Planned {part}', { part: formatClothSize(part, unit) })}
          defaultValue={formatClothSize(part, unit)}
          maxLength={60}
        />
        <TextField name={names.label} label={say('Label')} hint={say('Written on it now')} defaultValue={label} maxLength={60} />
        <TextField
          name={names.place}
          label={say('Place')}
          hint={say('Left out: {place}', { place: place ?? say('none') })}
          suggestionsId={placesId}
          maxLength={60}
        />
      </FieldRow>
    </fieldset>
  )
}
