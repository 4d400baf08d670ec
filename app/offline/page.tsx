import type { Metadata } from 'next'
import { LinkButton } from '#ui/button'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import s from './offline.module.css'

export const metadata: Metadata = { title: 'Without a connection' }

/**
 * What a device shows where there is no connection. The worker on it keeps this page, and fills in what stands at `data-offline-here`; which of
 * the sentences fits, it says at the root element (app/_offline/say-offline.ts). With a connection the page says what it is for.
 */
export default function OfflinePage() {
  return (
    <div className={s.page}>
      <div className={s.connected}>
        <h1>Without a connection</h1>
        <p>
          You are connected. What you open is kept on this device as far as the browser allows it, so that lists, counts and
          places open without a connection too.
        </p>
        <p>
          <LinkButton href="/">Find</LinkButton>
        </p>
      </div>
      <div className={s.apart}>
        <div className={s.notSeen}>
          <h1>No connection</h1>
          <p>
            This page was not seen on this device yet, or is one that is never kept on it. It will open again with the next
            connection.
          </p>
        </div>
        <div className={s.list}>
          <h1>No connection</h1>
        </div>
        <div className={s.asked}>
          <h1>Find, without a connection</h1>
        </div>
        <search>
          <form action="/" method="get" className={s.box}>
            <label htmlFor="find-here">Find on this device</label>
            <div>
              <input id="find-here" name="q" type="search" autoComplete="off" enterKeyHint="search" data-offline-box="" />
              <button type="submit">Find</button>
            </div>
          </form>
        </search>
        <div className={s.asked}>
          <p role="status" className={s.found}>
            Found for “<span data-offline-here="asked" />
            ”: <span data-offline-here="found" />, shown <span data-offline-here="shown" />.
          </p>
          <p role="status" className={s.nothing}>
            Nothing found for “<span data-offline-here="asked" />” on this device. Every letter counts here: a word with a slip of
            the fingers finds nothing.
          </p>
          <p role="status" className={s.unknown}>
            This device does not know the collection yet. Open Find once with a connection, and look things up without one
            afterwards.
          </p>
          <ul className={s.hits} data-offline-here="hits" aria-label="Found on this device" />
          <p className={s.known}>
            Places are as this device last heard of them, at <span data-offline-here="known" />.
          </p>
          <p className={s.leftOut}>
            Not everything has room on a device. Designs that are only found with a connection:{' '}
            <span data-offline-here="left-out" />.
          </p>
        </div>
        <Section title="What can be opened" note="As it was seen at the time beside it">
          <ul className={s.pages} data-offline-here="pages" aria-label="Pages seen on this device" />
          <p className={s.noPages}>Nothing was seen on this device yet.</p>
        </Section>
        <p className={s.again}>
          <Link href="/">Try Find again</Link>
        </p>
      </div>
    </div>
  )
}
