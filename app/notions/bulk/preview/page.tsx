import type { Metadata } from 'next'
import { NewHomePreviewPage, type NewHomeQuery } from '../../../_listing/new-home-pages'

export const metadata: Metadata = { title: 'What would change' }

export default async function Preview({ searchParams }: { searchParams: Promise<NewHomeQuery> }) {
  return <NewHomePreviewPage room="notions" query={await searchParams} />
}
