import type { ReactNode } from 'react'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type MarkStatus, markStatuses } from '#lib/project/kit/check'
import { Button } from '#ui/button'
import { CheckField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { markWords } from '#words/kit'
import { checkAction } from './actions'
import s from './bags.module.css'
import { MarkChoice } from './mark-choice'
import { markField } from './schema'

export type CheckRow = {
  bag: number
  key: string
  /** Seen: the line, or the bag. */
  title: ReactNode
  /** Heard before the choice: "bag 7, Larkholm 0311". */
  label: string
  note?: ReactNode
  mark: { status: MarkStatus; who: string | null } | null
}

type CheckSheetProps = { projectId: string; rows: readonly CheckRow[]; name: string; allThere: string; heard: string }

/** Lines or bags to look through with a thumb: there, short or wrong; or all of them there in one tap. */
export function CheckSheet({ projectId, rows, name, allThere, heard }: CheckSheetProps) {
  return (
    <div className={s.sheet}>
      <Form
        action={checkAction}
        hidden={{ projectId }}
        submit={say('Save what is marked')}
        submitKind="plain"
        label={heard}
        actions={
          <Button kind="first" type="submit" name="all" value="there">
            {allThere}
          </Button>
        }
      >
        <TextField name="by" label={say('Who checks')} defaultValue={name} autoComplete="name" width="half" isRequired />
        <CheckField
          name="isAlone"
          label={say('Nobody else is at hand: I packed it and look again')}
          hint={say('Another pair of eyes sees what the first left out')}
        />
        <ul className={s.rows}>
          {rows.map(({ bag, key, title, label, note, mark }) => (
            <li key={`${bag} ${key}`} className={s.row}>
              <div>
                {title}
                {note && <span className={s.note}>{note}</span>}
                {mark?.who && (
                  <span className={s.note}>
                    {sayParts('{mark}, says {who}', { mark: markWords[mark.status], who: mark.who })}
                  </span>
                )}
              </div>
              <fieldset className={s.marks}>
                <legend className="vh">{label}</legend>
                {markStatuses.map((status) => (
                  <MarkChoice
                    key={status}
                    name={markField(bag, key)}
                    status={status}
                    stands={mark?.status ?? null}
                    words={markWords[status]}
                  />
                ))}
              </fieldset>
              <input type="hidden" name={`saw ${bag} ${key}`} value={mark?.status ?? ''} />
            </li>
          ))}
        </ul>
      </Form>
    </div>
  )
}
