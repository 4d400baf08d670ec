import type { ImportListed } from '#lib/db/importing/import-service'
import type { ButtonKind } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { counted, listed } from '#words/amounts'
import { undoAction } from './actions'

type UndoImportProps = {
  imported: Pick<ImportListed, 'id' | 'fileName' | 'addedCount' | 'changedCount'>
  openerKind?: ButtonKind
}

/** The button that takes an import back, after asking. */
export function UndoImport({ imported, openerKind }: UndoImportProps) {
  const { id, fileName, addedCount, changedCount } = imported
  const rows = [
    ...(addedCount > 0 ? [`what ${counted(addedCount, 'row')} added is taken away`] : []),
    ...(changedCount > 0 ? [`what ${counted(changedCount, 'row')} changed is put back as it was`] : []),
  ]
  return (
    <ConfirmDialog
      opener={
        <>
          Undo<span className="vh"> {fileName}</span>
        </>
      }
      openerKind={openerKind}
      title={`Take back ${fileName}?`}
      confirm="Take it back"
      action={undoAction}
      hidden={{ importId: id }}
    >
      <p>
        {rows.length > 0 ? `Then ${listed(rows)}. ` : ''}
        What was changed by hand since, or is in use by something else, stays as it is, and you are told what.
      </p>
    </ConfirmDialog>
  )
}
