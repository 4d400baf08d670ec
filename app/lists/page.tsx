import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { sharedLists } from '#lib/db/list/shared-thing'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { listWords } from '../_lists/list-rows'
import s from './lists.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Lists to share') })

export default function ListsPage() {
  return (
    <>
      <PageHead
        title={say('Lists to share')}
        byline={say('To print, to send or to read aloud. None of them says a price, a person, an address or a note.')}
      />
      <ul className={s.lists}>
        {sharedLists.map((list) => (
          <li key={list}>
            <Link href={`/lists/${list}`}>{listWords()[list].title}</Link>
            <p>{listWords()[list].byline}</p>
          </li>
        ))}
      </ul>
      <p className={s.after}>
        {sayParts(
          'Sheets for yourself, with prices and notes, and everything there is as one archive: <link>Everything in a file</link>. For an insurer, what it would cost to replace: <link2>Insurance list</link2>.',
          { link: (words) => <Link href="/archive">{words}</Link>, link2: (words) => <Link href="/insurance">{words}</Link> },
        )}
      </p>
    </>
  )
}
