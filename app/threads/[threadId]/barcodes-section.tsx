import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
    <Section title={say('Barcodes')} id="barcodes" note={say('What is printed as bars on its band: a scanner then knows it.')}>
      {thread.barcodes.length > 0 && (
        <ul className={s.list}>
          {thread.barcodes.map(({ id, code }) => (
            <li key={id}>
              <span className="nb">{code}</span>
              <ConfirmDialog
                opener={sayParts('Forget{code}', { code: <span className="vh"> {code}</span> })}
                openerKind="quiet"
                title={say('Forget the bars {code}?', { code })}
                confirm={say('Forget them')}
                action={forgetBarcodeAction}
                hidden={{ id, threadId: thread.id }}
              >
                <p>{say('Scanned again, they are asked for as if never seen.')}</p>
              </ConfirmDialog>
            </li>
          ))}
        </ul>
      )}
      <div className={s.gap}>
        <Form
          label={say('Add a barcode of {threadTitle}', { threadTitle: threadTitle(thread) })}
          action={rememberBarcodeAction}
          submit={say('Remember it')}
          submitKind="plain"
          hidden={{ threadId: thread.id }}
          clearsWhenDone
          isInline
        >
          <TextField
            name="code"
            label={say('Barcode')}
            hint={say('Scan it here, or type the digits under the bars.')}
            maxLength={100}
          />
        </Form>
      </div>
    </Section>
  )
}
