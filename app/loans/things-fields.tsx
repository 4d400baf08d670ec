import { say } from '#language/say'
import type { ThingToLend } from '#lib/db/loan/read-things'
import { CheckField, NumberField } from '#ui/field'
import { givenName } from '#words/given'
import { lentName, lentNote } from '#words/loan'
import s from './loans.module.css'

type ThingsFieldsProps = {
  things: readonly ThingToLend[]
  /** Ticked to begin with; all of them when left out. */
  isTicked?: (thing: ThingToLend) => boolean
}

/** What goes, each with a tick, and how many of it. */
export const ThingsFields = ({ things, isTicked = () => true }: ThingsFieldsProps) => (
  <fieldset className={s.things}>
    <legend className="vh">{say('What goes')}</legend>
    {things.map((one) => {
      const { thing, version, most, placeLabel } = one
      const key = `${thing.noun}:${thing.id}`
      const isWholeBatch = thing.noun === 'batch' && thing.wholePutUps > 0
      const isMany = isWholeBatch || (thing.noun !== 'cloth' && thing.noun !== 'batch' && most > 1)
      return (
        <div key={key} className={s.thing}>
          <CheckField
            name={`take:${key}`}
            value={String(version)}
            label={lentName(thing)}
            hint={[
              thing.noun === 'chart' ? givenName(thing.chartKind) : lentNote({ thing, count: most }),
              placeLabel && say('in {place}', { place: placeLabel }),
            ]
              .filter(Boolean)
              .join(', ')}
            defaultChecked={isTicked(one)}
          />
          {isMany && (
            <NumberField
              name={`many:${key}`}
              label={say('How many')}
              hint={say('Of {most}', { most })}
              defaultValue={thing.noun === 'chart' ? 1 : most}
              isWhole
            />
          )}
          {thing.noun === 'batch' && !isWholeBatch && <input type="hidden" name={`many:${key}`} value="0" />}
          {thing.noun === 'batch' && thing.hasPart && (
            <CheckField name={`part:${key}`} label={say('The part skein too')} defaultChecked />
          )}
        </div>
      )
    })}
  </fieldset>
)
