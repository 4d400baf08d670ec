import { say } from '#language/say'
import type { ThreadListDetail } from '#lib/db/chart/queries'
import { listLines } from '#lib/db/thread/list-lines'
import { usualListName } from '#lib/importing/check-lists'
import { LinkButton } from '#ui/button'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { getViewer } from '#viewer/viewer'
import { KeyEditor } from './key-editor'
import { keyTexts } from './key-texts'
import { saveListAction } from './list-actions'
import s from './list-form.module.css'
import { NewThreads } from './new-threads'

type ListFormProps = { designId: string; list: ThreadListDetail | null; isFirst: boolean }

/** A thread list to be typed or changed: its name and its key, saved in one. */
export async function ListForm({ designId, list, isFirst }: ListFormProps) {
  const [{ settings }, lines] = await Promise.all([getViewer(), listLines()])
  const { layout, texts } = keyTexts(list?.keyLines ?? [], settings.threadUnit)
  const blank = Array.from({ length: list ? 1 : 2 }, (_, index) => ({ key: String(layout.length + index), threadKeys: ['0'] }))
  const distinct = (names: string[]) => [...new Set(names)].filter((name) => name !== '')
  return (
    <div className={s.wide}>
      <Form
        action={saveListAction}
        hidden={{ designId, listId: list?.id ?? '', version: String(list?.version ?? 0) }}
        submit={say('Save the list')}
        pending={say('Saving')}
        label={say('Thread list')}
        actions={<LinkButton href={`/designs/${designId}`}>{list ? say('To the design') : say('Leave it for now')}</LinkButton>}
      >
        <div className={s.name}>
          <TextField
            name="name"
            label={say('Name of the list')}
            hint={say('As the chart has it, when it has several: Cotton, Hand-dyed')}
            defaultValue={list?.name ?? (isFirst ? usualListName : '')}
            maxLength={120}
            isRequired
          />
        </div>
        {/* Once saved it shows what is on record, such as the names threads have. */}
        <KeyEditor
          key={list?.version ?? 'new'}
          layout={[...layout, ...blank]}
          texts={texts}
          makerNames={distinct(lines.map(({ makerName }) => makerName))}
          lineNames={distinct(lines.map(({ name }) => name))}
        />
        <NewThreads />
      </Form>
    </div>
  )
}
