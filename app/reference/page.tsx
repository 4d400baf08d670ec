import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { operations } from '#api/operations'
import { say } from '#language/say'
import { PageHead } from '#ui/page-head'
import { OperationEntry } from './operation-entry'
import { ReferenceOverview } from './overview'
import { operationView } from './views'

const querySchema = z.object({ operation: z.string().max(100).optional().catch(undefined) })

type ReferencePageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

async function askedFor({ searchParams }: ReferencePageProps) {
  const { operation } = querySchema.parse(await searchParams)
  return operation === undefined ? null : (operations.find(({ id }) => id === operation) ?? notFound())
}

export async function generateMetadata(props: ReferencePageProps): Promise<Metadata> {
  const asked = await askedFor(props)
  return { title: asked ? asked.summary : say('Reference of the API') }
}

/** Every operation in a line, or one of them whole: all of them whole would be a page of many megabytes. */
export default async function ReferencePage(props: ReferencePageProps) {
  const asked = await askedFor(props)
  if (asked)
    return (
      <>
        <PageHead title={asked.summary} crumbs={[{ label: say('Reference of the API'), href: `/reference#${asked.id}` }]} />
        <OperationEntry operation={operationView(asked)} />
      </>
    )
  return <ReferenceOverview />
}
