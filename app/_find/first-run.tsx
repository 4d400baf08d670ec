import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
          title={say('Nothing here yet')}
          byline={say(
            'Once charts, threads and cloth are in, every chart says whether it can be stitched from stash, what cloth to cut for it, and where each thing is.',
          )}
        />
      ) : (
        <p className={own.lead}>{sayParts('Nothing of {ownerName} is here yet.', { ownerName })}</p>
      )}
      <div className={s.choices}>
        <section className={s.choice} aria-labelledby="choose-spreadsheet">
          <h2 id="choose-spreadsheet">{say('Bring in my spreadsheet')}</h2>
          <p>
            {say(
              'Threads, cloth, charts, thread lists or places, saved as CSV. Headings may have any names. You see what would happen before anything does.',
            )}
          </p>
          <div>
            <LinkButton href="/bring-in" kind="first">
              {say('Choose a file')}
            </LinkButton>
          </div>
        </section>
        <section className={s.choice} aria-labelledby="choose-sample">
          <h2 id="choose-sample">{say('Load the sample')}</h2>
          <p>
            {say(
              'An invented needlework shop with its charts, threads, cloth and drawers, to try everything on. It can be undone again.',
            )}
          </p>
          <Form action={startSampleAction} submit={say('Load the sample')} pending={say('Starting')} submitKind="plain" />
        </section>
        <section className={s.choice} aria-labelledby="choose-empty">
          {ownerName === undefined ? (
            <>
              <h2 id="choose-empty">{say('Start empty')}</h2>
              <p>{say('Say whose goods they are, and add things by hand as they come.')}</p>
              <Form action={startEmptyAction} submit={say('Start empty')} pending={say('Starting')} submitKind="plain">
                <TextField name="name" label={say('Name')} hint={say('Yours, or your shop’s.')} maxLength={100} isRequired />
                <ChoiceField
                  name="kind"
                  label={say('They are')}
                  defaultValue="own"
                  options={[
                    { value: 'own', label: say('a stash at home') },
                    { value: 'shop', label: say('a shop’s') },
                    { value: 'person', label: say('another person’s') },
                  ]}
                />
              </Form>
            </>
          ) : (
            <>
              <h2 id="choose-empty">{say('Add by hand')}</h2>
              <p>{say('One thing after another, as they come to hand.')}</p>
              <ul className={own.byHand}>
                <li>
                  <Link href="/places/new">{say('A place')}</Link>
                </li>
                <li>
                  <Link href="/threads/new">{say('A thread')}</Link>
                </li>
                <li>
                  <Link href="/cloth/new">{say('A piece of cloth')}</Link>
                </li>
                <li>
                  <Link href="/charts/new">{say('A chart')}</Link>
                </li>
              </ul>
            </>
          )}
        </section>
      </div>
    </>
  )
}
