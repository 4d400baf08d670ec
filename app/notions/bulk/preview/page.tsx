import type { Metadata } from 'next'
import { say } from '#language/say'
import { NewHomePreviewPage, type NewHomeQuery } from '../../../_listing/new-home-pages'

export const generateMetadata = (): Metadata => ({ title: say('What would change') })

export default async function Preview({ searchParams }: { searchParams: Promise<NewHomeQuery> }) {
  return <NewHomePreviewPage room="notions" query={await searchParams} />
}
