import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { listOffers, listSuppliers } from '#lib/db/offer/queries'
import { findLine, listLines } from '#lib/db/thread/list-lines'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { lineTitle } from '#words/thread'
import { editLineAction } from '../../actions'
import { LineFields } from '../../thread-fields'
import { OffersSection } from './offers/offers-section'

export const generateMetadata = (): Metadata => ({ title: say('A line of thread') })

export default async function LinePage({ params }: { params: Promise<{ lineId: string }> }) {
  const { lineId } = await params
  const [line, lines, offers, suppliers, { settings }] = await Promise.all([
    findLine(lineId),
    listLines(),
    listOffers(lineId),
    listSuppliers(),
    getViewer(),
  ])
  if (!line) notFound()
  const list = `/threads?line=${line.id}`
  const threads =
    line.threadCount === 1 ? say('one thread') : say('all {threadCount, number} threads', { threadCount: line.threadCount })
  return (
    <>
      <PageHead
        title={lineTitle(line)}
        crumbs={[{ label: say('Threads'), href: '/threads' }, { label: lineTitle(line), href: list }, { label: say('Change') }]}
        byline={say(
          'What you change here holds for {threads} of the line, and every design is reckoned anew. Stock already held keeps the length it was taken in with.',
          { threads },
        )}
        actions={<LinkButton href={`/threads/new?line=${line.id}`}>{say('Add a thread to it')}</LinkButton>}
      />
      <Form
        label={say('The line')}
        action={editLineAction}
        submit={say('Keep the changes')}
        hidden={{ lineId: line.id, version: String(line.version) }}
        actions={
          <LinkButton kind="quiet" href={list}>
            {say('Leave it')}
          </LinkButton>
        }
      >
        <LineFields
          line={line}
          currency={settings.currency}
          unit={settings.threadUnit}
          makerNames={[...new Set(lines.map((known) => known.makerName))]}
        />
      </Form>
      <OffersSection {...{ line, offers, suppliers }} currency={settings.currency} unit={settings.threadUnit} />
    </>
  )
}
