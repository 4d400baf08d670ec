import type { ThreadPage } from '#lib/db/thread/find-thread'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { threadTitle } from '#words/thread'
import { forgetBarcodeAction, rememberBarcodeAction } from '../delivery/actions'
import s from '../threads.module.css'

/** The bars on its bands, so that a scanner knows it. */
export function BarcodesSection({ thread }: { thread: ThreadPage }) {
  return (
    <Section title="Barcodes" id="barcodes" note="What is printed as bars on its band: a scanner then knows it.">
      {thread.barcodes.length > 0 && (
        <ul className={s.list}>
          {thread.barcodes.map(({ id, code }) => (
            <li key={id}>
              <span className="nb">{code}</span>
              <ConfirmDialog
                opener={
                  <>
                    Forget<span className="vh"> {code}</span>
                  </>
                }
                openerKind="quiet"
                title={`Forget the bars ${code}?`}
                confirm="Forget them"
                action={forgetBarcodeAction}
                hidden={{ id, threadId: thread.id }}
              >
                <p>Scanned again, they are asked for as if never seen.</p>
              </ConfirmDialog>
            </li>
          ))}
        </ul>
      )}
      <div className={s.gap}>
        <Form
          label={`Add a barcode of ${threadTitle(thread)}`}
          action={rememberBarcodeAction}
          submit="Remember it"
          submitKind="plain"
          hidden={{ threadId: thread.id }}
          clearsWhenDone
          isInline
        >
          <TextField name="code" label="Barcode" hint="Scan it here, or type the digits under the bars." maxLength={100} />
        </Form>
      </div>
    </Section>
  )
}
