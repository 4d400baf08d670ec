import { say } from '#language/say'
import { type ColumnsKnown, columnsText, isUsual } from '#lib/listing/columns'
import { Button } from '#ui/button'
import { chooseColumnsAction } from './columns-action'
import s from './columns-form.module.css'
import type { ListRoom } from './columns-of'

type ColumnsFormProps<Key extends string> = {
  room: ListRoom
  known: ColumnsKnown<Key>
  words: Record<Key, string>
  shown: readonly Key[]
}

/** Which columns a list shows and in what order, for this device. */
export function ColumnsForm<Key extends string>({ room, known, words, shown }: ColumnsFormProps<Key>) {
  const others = known.every.filter((key) => !shown.includes(key))
  return (
    <details className={s.columns}>
      <summary>{say('Columns')}</summary>
      <form action={chooseColumnsAction} aria-label={say('Columns of this list')}>
        <input type="hidden" name="room" value={room} />
        <input type="hidden" name="shown" value={columnsText(shown)} />
        <input type="hidden" name="every" value={columnsText(known.every)} />
        <input type="hidden" name="fixed" value={known.fixed} />
        {/* Pressed by Enter in place of the first step button. */}
        <button type="submit" className="vh" tabIndex={-1} aria-hidden="true" />
        <ul>
          {[...shown, ...others].map((key, at) => (
            <li key={key}>
              <label>
                <input
                  key={String(shown.includes(key))}
                  type="checkbox"
                  name="c"
                  value={key}
                  defaultChecked={shown.includes(key)}
                  disabled={key === known.fixed}
                />
                {words[key]}
              </label>
              {shown.includes(key) && (
                <span className={s.steps}>
                  <button
                    type="submit"
                    name="move"
                    value={`${key} -1`}
                    disabled={at === 0}
                    aria-label={say('{words}: earlier', { words: words[key] })}
                  >
                    ↑
                  </button>
                  <button
                    type="submit"
                    name="move"
                    value={`${key} 1`}
                    disabled={at === shown.length - 1}
                    aria-label={say('{words}: later', { words: words[key] })}
                  >
                    ↓
                  </button>
                </span>
              )}
            </li>
          ))}
        </ul>
        <div className={s.acts}>
          <Button type="submit">{say('Show these')}</Button>
          {!isUsual(shown, known) && (
            <Button type="submit" kind="quiet" name="usual" value="1">
              {say('As the house has them')}
            </Button>
          )}
        </div>
        <p className="quiet">{say('Kept on this device. On a phone the rows stay as they are.')}</p>
      </form>
    </details>
  )
}
