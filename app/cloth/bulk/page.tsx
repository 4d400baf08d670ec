import type { Metadata } from 'next'
import { ChosenThingsPage, type NewHomeQuery } from '../../_listing/new-home-pages'

export const metadata: Metadata = { title: 'Chosen' }

export default async function Chosen({ searchParams }: { searchParams: Promise<NewHomeQuery> }) {
  return <ChosenThingsPage room="cloth" query={await searchParams} />
}
