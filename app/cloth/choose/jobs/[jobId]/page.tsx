import type { Metadata } from 'next'
import { ChoiceJobPage } from '../../../../_choice/choice-job'

export const metadata: Metadata = { title: 'What this cloth can become' }

type PageProps = { params: Promise<{ jobId: string }> }

export default async function ClothChoicePage({ params }: PageProps) {
  return (
    <ChoiceJobPage
      jobId={(await params).jobId}
      screen="cloth"
      title="What this cloth can become"
      crumbs={[
        { label: 'Cloth', href: '/cloth' },
        { label: 'What this cloth can become', href: '/cloth/choose' },
      ]}
    />
  )
}
