import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { FinishThread } from '#lib/db/project/finish-sheet'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { PlaceLabel } from '#trade/place-label'
import { CheckField, NumberField } from '#ui/field'
import { listed, threadLength } from '#words/amounts'
import { heldWords } from '#words/stock'
import { threadName } from '#words/thread'
import { ThreadCell } from '../../../_things/thread-cell'
import { allField, howField, leftField, missingField, usedAtFirst, usedField } from '../../parse-used'
import s from './finish.module.css'
import { LeftoverFields } from './leftover-fields'

/** One row a thread: what it is and what there was, how much was used, where the rest goes. */
export function UsedFields({ threads, unit }: { threads: readonly FinishThread[]; unit: ThreadLengthUnit }) {
  return (
    <ol className={s.used}>
      {threads.map((row) => (
        <li key={row.thread.id} className={s.thread}>
          <div>
            <ThreadCell thread={row.thread} note={standingWords(row, unit)} />
            {row.pulled.map(({ batch, home }) => (
              <div key={batch.id} className={s.home}>
                <span>{say('the rest back to')}</span>
                {home ? <PlaceLabel label={home.label} /> : <span>{say('no place of its own')}</span>}
                {batch.lot && <span>{sayParts('lot {lot}', { lot: batch.lot })}</span>}
              </div>
            ))}
          </div>
          {row.heldStrandTenths > 0 ? (
            <div className={s.said}>
              <NumberField
                name={usedField(row.thread.id)}
                label={sayParts('Used<span> of {threadName}</span>', {
                  span: (words) => <span className="vh">{words}</span>,
                  threadName: threadName(row.thread),
                })}
                defaultValue={usedAtFirst(row, unit)}
              />
              <CheckField
                name={allField(row.thread.id)}
                label={sayParts('All of it{threadName}', { threadName: <span className="vh">, {threadName(row.thread)}</span> })}
              />
              {row.pulled.map(({ batch }) => (
                <CheckField
                  key={batch.id}
                  name={missingField(batch.id)}
                  label={sayParts('Not in the bag{rest}{threadName}', {
                    rest:
                      row.pulled.length > 1 &&
                      say(': {held}{rest}', {
                        held: heldWords(batch, row.thread, unit),
                        rest: batch.lot ? say(' of lot {lot}', { lot: batch.lot }) : '',
                      }),
                    threadName: <span className="vh">, {threadName(row.thread)}</span>,
                  })}
                />
              ))}
              {row.pulled.length > 0 && (
                <LeftoverFields
                  how={howField(row.thread.id)}
                  left={leftField(row.thread.id)}
                  threadName={threadName(row.thread)}
                  putUpWord={row.thread.putUpWord}
                  putUpMilligrams={row.putUpMilligrams}
                  unit={unit}
                />
              )}
            </div>
          ) : (
            <p className="quiet">{say('None was promised or pulled, so none is taken off.')}</p>
          )}
        </li>
      ))}
    </ol>
  )
}

function standingWords({ pulled, heldStrandTenths, needStrandTenths, thread }: FinishThread, unit: ThreadLengthUnit): string {
  const need = say('needs {threadLength}', { threadLength: threadLength(needStrandTenths, thread.strands, unit) })
  if (pulled.length > 0)
    return say('{need}; in the bag {pulled}', { need, pulled: listed(pulled.map(({ batch }) => heldWords(batch, thread, unit))) })
  return heldStrandTenths > 0
    ? say('{need}; promised at home {threadLength}', { need, threadLength: threadLength(heldStrandTenths, thread.strands, unit) })
    : need
}
