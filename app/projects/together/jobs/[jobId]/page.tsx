import type { Metadata } from 'next'
import { say } from '#language/say'
import { ChoiceJobPage } from '../../../../_choice/choice-job'

export const generateMetadata = (): Metadata => ({ title: say('Which together') })

type PageProps = { params: Promise<{ jobId: string }> }

export default async function TogetherAnswerPage({ params }: PageProps) {
  return (
    <ChoiceJobPage
      jobId={(await params).jobId}
      screen="together"
      title={say('Which together')}
      crumbs={[
        { label: say('Projects'), href: '/projects' },
        { label: say('Which together'), href: '/projects/together' },
      ]}
    />
  )
}
