import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { CountRecord, SheetLine } from '#lib/db/count/queries'
import { PlaceLabel } from '#trade/place-label'
import { ThreadName } from '#trade/thread-bar'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { hexesOf } from '#words/colour'
import { enterCountsAction } from '../actions'
import { lineName } from '../words'
import s from './count.module.css'
import { CountBox } from './count-box'
import { FiguresHere } from './figures-here'
import { ScanLine } from './scan-line'

type CountSheetProps = { count: CountRecord; lines: readonly SheetLine[]; name: string }

/** Everything to count, place by place as one walks past it, with a box for each. What the record expects is nowhere on it. */
export function CountSheet({ count, lines, name }: CountSheetProps) {
  const stops = new Map<string, SheetLine[]>()
  for (const line of lines) stops.set(line.place.id, [...(stops.get(line.place.id) ?? []), line])
  const ownerNames = new Set(lines.flatMap(({ ownerName }) => ownerName ?? []))
  return (
    <div className={s.sheet}>
      <Form
        action={enterCountsAction}
        hidden={{ countId: count.id }}
        submit={say('Save what is counted')}
        label={say('Count sheet')}
      >
        <div className={s.screen}>
          <TextField name="by" label={say('Who counts')} defaultValue={name} autoComplete="name" width="half" isRequired />
        </div>
        <ScanLine />
        <FiguresHere
          countId={count.id}
          lines={lines.map((line) => ({ id: line.id, name: lineName(line), place: line.place.label, counted: line.counted }))}
        />
        <div className={s.stops}>
          {[...stops].map(([placeId, rows]) => (
            <section key={placeId} data-place={placeId} className={s.stop} aria-label={rows[0]?.place.label}>
              <PlaceLabel label={rows[0]?.place.label ?? ''} isLarge />
              <ul className={s.rows}>
                {rows.map((line) => (
                  <li key={line.id} data-thread={line.thread?.id} className={s.row}>
                    <div>
                      <LineName line={line} owner={ownerNames.size > 1 ? line.ownerName : null} />
                      {line.counted !== null && (
                        <span className={s.by}>{sayParts('counted by {countedBy}', { countedBy: line.countedBy })}</span>
                      )}
                    </div>
                    <CountBox
                      name={`counted-${line.id}`}
                      counted={line.counted}
                      label={[
                        lineName(line),
                        line.lot && say('lot {lot}', { lot: line.lot }),
                        say('in {label}: how many', { label: line.place.label }),
                      ]
                        .filter(Boolean)
                        .join(', ')}
                    />
                    <input
                      type="hidden"
                      name={`saw-${line.id}`}
                      value={line.countedAt && line.counted !== null ? `${line.countedAt.toISOString()} ${line.counted}` : ''}
                    />
                  </li>
                ))}
              </ul>
            </section>
          ))}
        </div>
      </Form>
    </div>
  )
}

function LineName({ line, owner }: { line: SheetLine; owner: string | null }) {
  const { thread, lot, found } = line
  if (!thread) return <b>{found}</b>
  const note = [lot && say('lot {lot}', { lot }), owner].filter(Boolean).join(' · ')
  return (
    <ThreadName
      maker={thread.makerName}
      code={thread.code}
      name={thread.name ?? undefined}
      note={note || undefined}
      hexes={hexesOf(thread.lab)}
    />
  )
}
