import type { Metadata } from 'next'
import { MergingView } from '../../../_doubles/merging-view'

export const metadata: Metadata = { title: 'Doubles merged' }

export default async function ThreadMergingPage({ params }: { params: Promise<{ mergingId: string }> }) {
  const crumbs = [
    { label: 'Threads', href: '/threads' },
    { label: 'Doubles', href: '/threads/doubles' },
  ]
  return <MergingView mergingId={(await params).mergingId} crumbs={crumbs} />
}
