import { formatClothLength } from '#language/lengths'
import { say, sayings } from '#language/say'
import { framingMargin } from '#lib/cloth/framing'
import { defaultFinishing, listFinishings } from '#lib/cloth/margins'
import { mostOwnFinishings, type Settings } from '#lib/settings/settings'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { givenName } from '#words/given'
import { addFinishingAction, applyFramingAction, removeFinishingAction, saveFramingAction, saveMarginsAction } from './actions'
import s from './settings.module.css'

const sides = () =>
  [
    ['leftUm', say('Left')],
    ['rightUm', say('Right')],
    ['topUm', say('Top')],
    ['bottomUm', say('Bottom')],
  ] as const

const framingParts = () =>
  [
    ['seenUm', say('Plain cloth seen')],
    ['rabbetUm', say('Under the rabbet')],
    ['boardUm', say('Over the board’s edge')],
    ['turnBackUm', say('Turned back for lacing')],
  ] as const

const notes: Record<string, string> = sayings({
  drum: 'Left and right are the lap where the strip meets; the strip itself goes once round the drum.',
})

/** Margins by way of finishing, one's own ways, and what a framed margin is made of. */
export function MarginsSection({ settings }: { settings: Settings }) {
  const unit = settings.lengthUnit
  return (
    <>
      <Section
        title={say('Margins')}
        id="margins"
        note={say('Plain cloth on each side of the design, by way of finishing. Advice differs; these are where one may begin.')}
      >
        <Form action={saveMarginsAction} submit={say('Keep the margins')} label={say('Margins by way of finishing')}>
          <div className={s.margins}>
            {listFinishings(settings).map(({ name, margins }) => (
              <fieldset key={name}>
                <legend>{givenName(name)}</legend>
                {notes[name] && <p className={s.note}>{notes[name]}</p>}
                <div className={s.sides}>
                  {sides().map(([side, label]) => (
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
    <Section title={say('Your own ways of finishing')} id="own-finishings" note={say('Added by name; those above stay.')}>
      {ownFinishings.map(({ name }) => (
        <div key={name} className={s.own}>
          <b>{name}</b>
          <Form
            action={removeFinishingAction}
            submit={say('Take it away')}
            submitKind="plain"
            isInline
            hidden={{ name }}
            label={say('Take away {name}', { name })}
          />
        </div>
      ))}
      {ownFinishings.length < mostOwnFinishings && (
        <Form action={addFinishingAction} submit={say('Add it')} label={say('Add a way of finishing')} clearsWhenDone>
          <TextField
            name="name"
            label={say('Name')}
            width="half"
            hint={say('Such as a needle book or a table mat.')}
            maxLength={60}
          />
          <div className={s.sides}>
            {sides().map(([side, label]) => (
              <TextField
                key={side}
                name={side}
                label={label}
                width="short"
                placeholder={side === 'leftUm' ? formatClothLength(50_800, lengthUnit) : say('as left')}
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
  const isUsed = sides().every(([side]) => framed[side] === marginUm)
  return (
    <Section
      title={say('What a framed margin is made of')}
      id="framing"
      note={
        isUsed ? say('The framed margins above are this sum, rounded up.') : say('The framed margins above are not this sum.')
      }
    >
      <div className={s.framing}>
        <Form
          key={framingParts()
            .map(([part]) => framing[part])
            .join(' ')}
          action={saveFramingAction}
          submit={say('Keep these parts')}
          label={say('What a framed margin is made of')}
        >
          <div className={s.sides}>
            {framingParts().map(([part, label]) => (
              <TextField key={part} name={part} label={label} width="short" defaultValue={length(framing[part])} />
            ))}
          </div>
        </Form>
        <Unfold
          label={say('Together {length}, rounded up {length2}', { length: length(sumUm), length2: length(marginUm) })}
          isOpenAtFirst
        >
          <Sums>
            <Sum
              title={say('Framed, on each side')}
              rows={[
                ...framingParts().map(([part, label]) => ({ label, figure: length(framing[part]) })),
                { label: say('Together'), figure: length(sumUm), kind: 'rule' },
                {
                  label: say('Margin'),
                  how: say('up to the next {length}', { length: length(roundingUm) }),
                  figure: length(marginUm),
                  kind: 'end',
                },
              ]}
            />
          </Sums>
        </Unfold>
        {!isUsed && (
          <Form
            action={applyFramingAction}
            submit={say('Use {length} for framed', { length: length(marginUm) })}
            submitKind="plain"
            label={say('Use the sum for the framed margin')}
          />
        )}
      </div>
    </Section>
  )
}
