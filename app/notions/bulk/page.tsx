import type { Metadata } from 'next'
import { say } from '#language/say'
import { ChosenThingsPage, type NewHomeQuery } from '../../_listing/new-home-pages'

export const generateMetadata = (): Metadata => ({ title: say('Chosen') })

export default async function Chosen({ searchParams }: { searchParams: Promise<NewHomeQuery> }) {
  return <ChosenThingsPage room="notions" query={await searchParams} />
}
