import type { UnpackThing, UnpackThread } from '#lib/db/unpack/unpack-sheet'
import type { Settings } from '#lib/settings/settings'
import { PlaceLabel } from '#trade/place-label'
import { NumberField, type Option, SelectField, TextField } from '#ui/field'
import { ThingName, thingWords } from '../../../_things/thing-name'
import { fateField, goneField, leftField, projectField, versionField } from './read-unpack'
import s from './unpack.module.css'

type RowProps<Row> = { row: Row; isPart: boolean; settings: Settings }

const Heard = ({ of }: { of: string }) => <span className="vh"> of {of}</span>

const Home = ({ home, note }: { home: UnpackThread['home']; note?: string | null | false }) => (
  <div className={s.home}>
    {home ? (
      <>
        <span>back to</span>
        <PlaceLabel label={home.label} href={`/places/${home.id}`} />
      </>
    ) : (
      <span>no place of its own: it stays here until it is given one</span>
    )}
    {note && <span>{note}</span>}
  </div>
)

const threadChoices = (row: UnpackThread): Option[] => [
  { value: 'as-it-was', label: 'As it was' },
  { value: 'left', label: 'Some is left' },
  { value: 'used-up', label: 'Used up' },
  { value: 'not-there', label: 'Not in the bag' },
  { value: 'stays', label: row.home ? 'Stays in the bag' : 'Stays where it is' },
]

/** One batch of thread: what it is and where it lives; what became of it. */
export function ThreadRow({ row, isPart, settings }: RowProps<UnpackThread>) {
  const name = `${row.makerName} ${row.code}${row.lot === null ? '' : `, lot ${row.lot}`}`
  const canLoseSome = row.wholePutUps > 1 || (row.wholePutUps === 1 && row.partCertainty !== 'none')
  const [likeliest] = row.projects
  return (
    <li className={s.row}>
      <div>
        <ThingName thing={row} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />
        <Home home={row.home} note={likeliest && row.projects.length === 1 && `for ${likeliest.title}`} />
        <input type="hidden" name={versionField(row.id)} value={row.version} />
      </div>
      <div className={s.said}>
        <SelectField
          name={fateField(row.id)}
          label={
            <>
              What became of it
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
              So much is left
              <Heard of={name} />
            </>
          }
          placeholder={`0.7, 2.5 ${settings.threadUnit}${row.putUpMilligrams === null ? '' : ' or 3.1 g'}`}
          maxLength={30}
        />
        {canLoseSome && (
          <NumberField
            name={goneField(row.id)}
            label={
              <>
                Of these not there
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
                Used for
                <Heard of={name} />
              </>
            }
            none="no project"
            options={row.projects.map(({ id, title }) => ({ value: id, label: title }))}
            defaultValue={likeliest?.id}
          />
        )}
      </div>
    </li>
  )
}

const thingChoices = (row: UnpackThing): Option[] => [
  { value: 'back', label: 'Goes back' },
  { value: 'stays', label: 'Stays in the bag' },
  { value: 'not-there', label: 'Not in the bag' },
  ...(row.noun === 'notion' ? [{ value: 'used-up', label: 'Used up, lost or broken' }] : []),
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
              What becomes of it
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
