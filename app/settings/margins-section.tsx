import { formatClothLength } from '#language/lengths'
import { framingMargin } from '#lib/cloth/framing'
import { defaultFinishing, listFinishings } from '#lib/cloth/margins'
import { mostOwnFinishings, type Settings } from '#lib/settings/settings'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { addFinishingAction, applyFramingAction, removeFinishingAction, saveFramingAction, saveMarginsAction } from './actions'
import s from './settings.module.css'

const sides = [
  ['leftUm', 'Left'],
  ['rightUm', 'Right'],
  ['topUm', 'Top'],
  ['bottomUm', 'Bottom'],
] as const

const framingParts = [
  ['seenUm', 'Plain cloth seen'],
  ['rabbetUm', 'Under the rabbet'],
  ['boardUm', 'Over the board’s edge'],
  ['turnBackUm', 'Turned back for lacing'],
] as const

const notes: Record<string, string> = {
  drum: 'Left and right are the lap where the strip meets; the strip itself goes once round the drum.',
}

/** Margins by way of finishing, one's own ways, and what a framed margin is made of. */
export function MarginsSection({ settings }: { settings: Settings }) {
  const unit = settings.lengthUnit
  return (
    <>
      <Section
        title="Margins"
        id="margins"
        note="Plain cloth on each side of the design, by way of finishing. Advice differs; these are where one may begin."
      >
        <Form action={saveMarginsAction} submit="Keep the margins" label="Margins by way of finishing">
          <div className={s.margins}>
            {listFinishings(settings).map(({ name, margins }) => (
              <fieldset key={name}>
                <legend>{name}</legend>
                {notes[name] && <p className={s.note}>{notes[name]}</p>}
                <div className={s.sides}>
                  {sides.map(([side, label]) => (
                    <TextField
                      key={side}
                      name={`${name} ${side}`}
                      label={label}
                      width="short"
                      defaultValue={formatClothLength(margins[side], unit)}
                    />
                  ))}
                </div>
              </fieldset>
            ))}
          </div>
        </Form>
      </Section>
      <OwnFinishings settings={settings} />
      <FramedMargin settings={settings} />
    </>
  )
}

function OwnFinishings({ settings }: { settings: Settings }) {
  const { ownFinishings, lengthUnit } = settings
  return (
    <Section title="Your own ways of finishing" id="own-finishings" note="Added by name; those above stay.">
      {ownFinishings.map(({ name }) => (
        <div key={name} className={s.own}>
          <b>{name}</b>
          <Form
            action={removeFinishingAction}
            submit="Take it away"
            submitKind="plain"
            isInline
            hidden={{ name }}
            label={`Take away ${name}`}
          />
        </div>
      ))}
      {ownFinishings.length < mostOwnFinishings && (
        <Form action={addFinishingAction} submit="Add it" label="Add a way of finishing" clearsWhenDone>
          <TextField name="name" label="Name" width="half" hint="Such as a needle book or a table mat." maxLength={60} />
          <div className={s.sides}>
            {sides.map(([side, label]) => (
              <TextField
                key={side}
                name={side}
                label={label}
                width="short"
                placeholder={side === 'leftUm' ? formatClothLength(50_800, lengthUnit) : 'as left'}
              />
            ))}
          </div>
        </Form>
      )}
    </Section>
  )
}

function FramedMargin({ settings }: { settings: Settings }) {
  const { framing, roundingUm, lengthUnit } = settings
  const length = (um: number) => formatClothLength(um, lengthUnit)
  const { sumUm, marginUm } = framingMargin(framing, roundingUm)
  const framed = settings.margins[defaultFinishing]
  const isUsed = sides.every(([side]) => framed[side] === marginUm)
  return (
    <Section
      title="What a framed margin is made of"
      id="framing"
      note={isUsed ? 'The framed margins above are this sum, rounded up.' : 'The framed margins above are not this sum.'}
    >
      <div className={s.framing}>
        <Form
          key={framingParts.map(([part]) => framing[part]).join(' ')}
          action={saveFramingAction}
          submit="Keep these parts"
          label="What a framed margin is made of"
        >
          <div className={s.sides}>
            {framingParts.map(([part, label]) => (
              <TextField key={part} name={part} label={label} width="short" defaultValue={length(framing[part])} />
            ))}
          </div>
        </Form>
        <Unfold label={`Together ${length(sumUm)}, rounded up ${length(marginUm)}`} isOpenAtFirst>
          <Sums>
            <Sum
              title="Framed, on each side"
              rows={[
                ...framingParts.map(([part, label]) => ({ label, figure: length(framing[part]) })),
                { label: 'Together', figure: length(sumUm), kind: 'rule' },
                { label: 'Margin', how: `up to the next ${length(roundingUm)}`, figure: length(marginUm), kind: 'end' },
              ]}
            />
          </Sums>
        </Unfold>
        {!isUsed && (
          <Form
            action={applyFramingAction}
            submit={`Use ${length(marginUm)} for framed`}
            submitKind="plain"
            label="Use the sum for the framed margin"
          />
        )}
      </div>
    </Section>
  )
}
