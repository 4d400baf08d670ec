import type { Metadata } from 'next'
import { ChoiceJobPage } from '../../../../_choice/choice-job'

export const metadata: Metadata = { title: 'Which together' }

type PageProps = { params: Promise<{ jobId: string }> }

export default async function TogetherAnswerPage({ params }: PageProps) {
  return (
    <ChoiceJobPage
      jobId={(await params).jobId}
      screen="together"
      title="Which together"
      crumbs={[
        { label: 'Projects', href: '/projects' },
        { label: 'Which together', href: '/projects/together' },
      ]}
    />
  )
}
