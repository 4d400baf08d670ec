import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ImportListed } from '#lib/db/importing/import-service'
import type { ButtonKind } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { listed } from '#words/amounts'
import { undoAction } from './actions'

type UndoImportProps = {
  imported: Pick<ImportListed, 'id' | 'fileName' | 'addedCount' | 'changedCount'>
  openerKind?: ButtonKind
}

/** The button that takes an import back, after asking. */
export function UndoImport({ imported, openerKind }: UndoImportProps) {
  const { id, fileName, addedCount, changedCount } = imported
  const rows = [
    ...(addedCount > 0 ? [say('what {addedCount, plural, one {# row} other {# rows}} added is taken away', { addedCount })] : []),
    ...(changedCount > 0
      ? [say('what {changedCount, plural, one {# row} other {# rows}} changed is put back as it was', { changedCount })]
      : []),
  ]
  return (
    <ConfirmDialog
      opener={sayParts('Undo{fileName}', { fileName: <span className="vh"> {fileName}</span> })}
      openerKind={openerKind}
      title={say('Take back {fileName}?', { fileName })}
      confirm={say('Take it back')}
      action={undoAction}
      hidden={{ importId: id }}
    >
      <p>
        {say('{rest}What was changed by hand since, or is in use by something else, stays as it is, and you are told what.', {
          rest: rows.length > 0 ? say('Then {rows}. ', { rows: listed(rows) }) : '',
        })}
      </p>
    </ConfirmDialog>
  )
}
