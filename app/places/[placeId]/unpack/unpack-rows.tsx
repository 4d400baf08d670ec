import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { UnpackThing, UnpackThread } from '#lib/db/unpack/unpack-sheet'
import type { Settings } from '#lib/settings/settings'
import { PlaceLabel } from '#trade/place-label'
import { NumberField, type Option, SelectField, TextField } from '#ui/field'
import { ThingName, thingWords } from '../../../_things/thing-name'
import { fateField, goneField, leftField, projectField, versionField } from './read-unpack'
import s from './unpack.module.css'

type RowProps<Row> = { row: Row; isPart: boolean; settings: Settings }

const Heard = ({ of }: { of: string }) => <span className="vh"> {sayParts('of {of}', { of })}</span>

const Home = ({ home, note }: { home: UnpackThread['home']; note?: string | null | false }) => (
  <div className={s.home}>
    {home ? (
      <>
        <span>{say('back to')}</span>
        <PlaceLabel label={home.label} href={`/places/${home.id}`} />
      </>
    ) : (
      <span>{say('no place of its own: it stays here until it is given one')}</span>
    )}
    {note && <span>{note}</span>}
  </div>
)

const threadChoices = (row: UnpackThread): Option[] => [
  { value: 'as-it-was', label: say('As it was') },
  { value: 'left', label: say('Some is left') },
  { value: 'used-up', label: say('Used up') },
  { value: 'not-there', label: say('Not in the bag') },
  { value: 'stays', label: row.home ? say('Stays in the bag') : say('Stays where it is') },
]

/** One batch of thread: what it is and where it lives; what became of it. */
export function ThreadRow({ row, isPart, settings }: RowProps<UnpackThread>) {
  const name = say('{makerName} {code}{rest}', {
    makerName: row.makerName,
    code: row.code,
    rest: row.lot === null ? '' : say(', lot {lot}', { lot: row.lot }),
  })
  const canLoseSome = row.wholePutUps > 1 || (row.wholePutUps === 1 && row.partCertainty !== 'none')
  const [likeliest] = row.projects
  return (
    <li className={s.row}>
      <div>
        <ThingName thing={row} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />
        <Home home={row.home} note={likeliest && row.projects.length === 1 && say('for {title}', { title: likeliest.title })} />
        <input type="hidden" name={versionField(row.id)} value={row.version} />
      </div>
      <div className={s.said}>
        <SelectField
          name={fateField(row.id)}
          label={
            <>
              {say('What became of it')}
              <Heard of={name} />
            </>
          }
          options={threadChoices(row)}
          defaultValue={isPart ? 'stays' : 'as-it-was'}
        />
        <TextField
          name={leftField(row.id)}
          label={
            <>
              {say('So much is left')}
              <Heard of={name} />
            </>
          }
          placeholder={say('0.7, 2.5 {threadUnit}{putUpMilligramsCase, select, yes {} other { or 3.1 g}}', {
            threadUnit: settings.threadUnit,
            putUpMilligramsCase: row.putUpMilligrams === null,
          })}
          maxLength={30}
        />
        {canLoseSome && (
          <NumberField
            name={goneField(row.id)}
            label={
              <>
                {say('Of these not there')}
                <Heard of={name} />
              </>
            }
            isWhole
            width="full"
            placeholder="0"
          />
        )}
        {row.projects.length > 1 && (
          <SelectField
            name={projectField(row.id)}
            label={
              <>
                {say('Used for')}
                <Heard of={name} />
              </>
            }
            none={say('no project')}
            options={row.projects.map(({ id, title }) => ({ value: id, label: title }))}
            defaultValue={likeliest?.id}
          />
        )}
      </div>
    </li>
  )
}

const thingChoices = (row: UnpackThing): Option[] => [
  { value: 'back', label: say('Goes back') },
  { value: 'stays', label: say('Stays in the bag') },
  { value: 'not-there', label: say('Not in the bag') },
  ...(row.noun === 'notion' ? [{ value: 'used-up', label: say('Used up, lost or broken') }] : []),
]

/** Cloth, a chart or a notion. */
export function ThingRow({ row, isPart, settings }: RowProps<UnpackThing>) {
  return (
    <li className={s.row}>
      <div>
        <ThingName thing={row} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />
        <Home home={row.home} />
        <input type="hidden" name={versionField(row.id)} value={row.version} />
      </div>
      <div className={s.said}>
        <SelectField
          name={fateField(row.id)}
          label={
            <>
              {say('What becomes of it')}
              <Heard of={thingWords(row)} />
            </>
          }
          options={row.home ? thingChoices(row) : thingChoices(row).filter(({ value }) => value !== 'back')}
          defaultValue={isPart || !row.home ? 'stays' : 'back'}
        />
      </div>
    </li>
  )
}
