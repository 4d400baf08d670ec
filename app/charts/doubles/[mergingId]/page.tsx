import type { Metadata } from 'next'
import { MergingView } from '../../../_doubles/merging-view'

export const metadata: Metadata = { title: 'Doubles merged' }

export default async function ChartMergingPage({ params }: { params: Promise<{ mergingId: string }> }) {
  const crumbs = [
    { label: 'Charts', href: '/charts' },
    { label: 'Doubles', href: '/charts/doubles' },
  ]
  return <MergingView mergingId={(await params).mergingId} crumbs={crumbs} />
}
