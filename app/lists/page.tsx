import type { Metadata } from 'next'
import { sharedLists } from '#lib/db/list/shared-thing'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { listWords } from '../_lists/list-rows'
import s from './lists.module.css'

export const metadata: Metadata = { title: 'Lists to share' }

export default function ListsPage() {
  return (
    <>
      <PageHead
        title="Lists to share"
        byline="To print, to send or to read aloud. None of them says a price, a person, an address or a note."
      />
      <ul className={s.lists}>
        {sharedLists.map((list) => (
          <li key={list}>
            <Link href={`/lists/${list}`}>{listWords[list].title}</Link>
            <p>{listWords[list].byline}</p>
          </li>
        ))}
      </ul>
      <p className={s.after}>
        Sheets for yourself, with prices and notes, and everything there is as one archive:{' '}
        <Link href="/archive">Everything in a file</Link>. For an insurer, what it would cost to replace:{' '}
        <Link href="/insurance">Insurance list</Link>.
      </p>
    </>
  )
}
