import type { Metadata } from 'next'
import { say } from '#language/say'
import { MergingView } from '../../../_doubles/merging-view'

export const generateMetadata = (): Metadata => ({ title: say('Doubles merged') })

export default async function ChartMergingPage({ params }: { params: Promise<{ mergingId: string }> }) {
  const crumbs = [
    { label: say('Charts'), href: '/charts' },
    { label: say('Doubles'), href: '/charts/doubles' },
  ]
  return <MergingView mergingId={(await params).mergingId} crumbs={crumbs} />
}
