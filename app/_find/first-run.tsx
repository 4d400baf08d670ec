import { LinkButton } from '#ui/button'
import { ChoiceField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { startSampleAction } from '../bring-in/actions'
import { startEmptyAction } from './actions'
import s from './find.module.css'
import own from './first-run.module.css'

/** What an empty collection opens with. With an owner there already, beginning empty is done: things are added by hand. */
export function FirstRun({ ownerName }: { ownerName?: string }) {
  return (
    <>
      {ownerName === undefined ? (
        <PageHead
          title="Nothing here yet"
          byline="Once charts, threads and cloth are in, every chart says whether it can be stitched from stash, what cloth to cut for it, and where each thing is."
        />
      ) : (
        <p className={own.lead}>Nothing of {ownerName} is here yet.</p>
      )}
      <div className={s.choices}>
        <section className={s.choice} aria-labelledby="choose-spreadsheet">
          <h2 id="choose-spreadsheet">Bring in my spreadsheet</h2>
          <p>
            Threads, cloth, charts, thread lists or places, saved as CSV. Headings may have any names. You see what would happen
            before anything does.
          </p>
          <div>
            <LinkButton href="/bring-in" kind="first">
              Choose a file
            </LinkButton>
          </div>
        </section>
        <section className={s.choice} aria-labelledby="choose-sample">
          <h2 id="choose-sample">Load the sample</h2>
          <p>
            An invented needlework shop with its charts, threads, cloth and drawers, to try everything on. It can be undone again.
          </p>
          <Form action={startSampleAction} submit="Load the sample" pending="Starting" submitKind="plain" />
        </section>
        <section className={s.choice} aria-labelledby="choose-empty">
          {ownerName === undefined ? (
            <>
              <h2 id="choose-empty">Start empty</h2>
              <p>Say whose goods they are, and add things by hand as they come.</p>
              <Form action={startEmptyAction} submit="Start empty" pending="Starting" submitKind="plain">
                <TextField name="name" label="Name" hint="Yours, or your shop’s." maxLength={100} isRequired />
                <ChoiceField
                  name="kind"
                  label="They are"
                  defaultValue="own"
                  options={[
                    { value: 'own', label: 'a stash at home' },
                    { value: 'shop', label: 'a shop’s' },
                    { value: 'person', label: 'another person’s' },
                  ]}
                />
              </Form>
            </>
          ) : (
            <>
              <h2 id="choose-empty">Add by hand</h2>
              <p>One thing after another, as they come to hand.</p>
              <ul className={own.byHand}>
                <li>
                  <Link href="/places/new">A place</Link>
                </li>
                <li>
                  <Link href="/threads/new">A thread</Link>
                </li>
                <li>
                  <Link href="/cloth/new">A piece of cloth</Link>
                </li>
                <li>
                  <Link href="/charts/new">A chart</Link>
                </li>
              </ul>
            </>
          )}
        </section>
      </div>
    </>
  )
}
