import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import { say } from '#language/say'
import { rights } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { NotAllowedScreen } from '../_gate/not-allowed-screen'

export const generateMetadata = (): Metadata => ({ title: say('Not for this account') })

const askedSchema = z.object({ asked: z.enum(rights).optional().catch(undefined) })

/** Where a form sent without scripts is led that somebody may not send. */
export default async function NotAllowedPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { asked } = askedSchema.parse(await searchParams)
  if (who().kind !== 'account') redirect('/')
  return <NotAllowedScreen asked={asked} />
}
