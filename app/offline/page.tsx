import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { LinkButton } from '#ui/button'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import s from './offline.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Without a connection') })

/**
 * What a device shows where there is no connection. The worker on it keeps this page, and fills in what stands at `data-offline-here`; which of
 * the sentences fits, it says at the root element (app/_offline/say-offline.ts). With a connection the page says what it is for.
 */
export default function OfflinePage() {
  return (
    <div className={s.page}>
      <div className={s.connected}>
        <h1>{say('Without a connection')}</h1>
        <p>
          {say(
            'You are connected. What you open is kept on this device as far as the browser allows it, so that lists, counts and places open without a connection too.',
          )}
        </p>
        <p>
          <LinkButton href="/">{say('Find')}</LinkButton>
        </p>
      </div>
      <div className={s.apart}>
        <div className={s.notSeen}>
          <h1>{say('No connection')}</h1>
          <p>
            {say(
              'This page was not seen on this device yet, or is one that is never kept on it. It will open again with the next connection.',
            )}
          </p>
        </div>
        <div className={s.list}>
          <h1>{say('No connection')}</h1>
        </div>
        <div className={s.asked}>
          <h1>{say('Find, without a connection')}</h1>
        </div>
        <search>
          <form action="/" method="get" className={s.box}>
            <label htmlFor="find-here">{say('Find on this device')}</label>
            <div>
              <input id="find-here" name="q" type="search" autoComplete="off" enterKeyHint="search" data-offline-box="" />
              <button type="submit">{say('Find')}</button>
            </div>
          </form>
        </search>
        <div className={s.asked}>
          <p role="status" className={s.found}>
            {sayParts('Found for “{span}”: {span2}, shown {span3}.', {
              span: <span data-offline-here="asked" />,
              span2: <span data-offline-here="found" />,
              span3: <span data-offline-here="shown" />,
            })}
          </p>
          <p role="status" className={s.nothing}>
            {sayParts(
              'Nothing found for “{span}” on this device. Every letter counts here: a word with a slip of the fingers finds nothing.',
              { span: <span data-offline-here="asked" /> },
            )}
          </p>
          <p role="status" className={s.unknown}>
            {say(
              'This device does not know the collection yet. Open Find once with a connection, and look things up without one afterwards.',
            )}
          </p>
          <ul className={s.hits} data-offline-here="hits" aria-label={say('Found on this device')} />
          <p className={s.known}>
            {sayParts('Places are as this device last heard of them, at {span}.', { span: <span data-offline-here="known" /> })}
          </p>
          <p className={s.leftOut}>
            {sayParts('Not everything has room on a device. Designs that are only found with a connection: {span}.', {
              span: <span data-offline-here="left-out" />,
            })}
          </p>
        </div>
        <Section title={say('What can be opened')} note={say('As it was seen at the time beside it')}>
          <ul className={s.pages} data-offline-here="pages" aria-label={say('Pages seen on this device')} />
          <p className={s.noPages}>{say('Nothing was seen on this device yet.')}</p>
        </Section>
        <p className={s.again}>
          <Link href="/">{say('Try Find again')}</Link>
        </p>
      </div>
    </div>
  )
}
