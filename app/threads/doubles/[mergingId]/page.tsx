import type { Metadata } from 'next'
import { say } from '#language/say'
import { MergingView } from '../../../_doubles/merging-view'

export const generateMetadata = (): Metadata => ({ title: say('Doubles merged') })

export default async function ThreadMergingPage({ params }: { params: Promise<{ mergingId: string }> }) {
  const crumbs = [
    { label: say('Threads'), href: '/threads' },
    { label: say('Doubles'), href: '/threads/doubles' },
  ]
  return <MergingView mergingId={(await params).mergingId} crumbs={crumbs} />
}
