import type { Metadata } from 'next'
import { say } from '#language/say'
import { ChoiceJobPage } from '../../../../_choice/choice-job'

export const generateMetadata = (): Metadata => ({ title: say('What this cloth can become') })

type PageProps = { params: Promise<{ jobId: string }> }

export default async function ClothChoicePage({ params }: PageProps) {
  return (
    <ChoiceJobPage
      jobId={(await params).jobId}
      screen="cloth"
      title={say('What this cloth can become')}
      crumbs={[
        { label: say('Cloth'), href: '/cloth' },
        { label: say('What this cloth can become'), href: '/cloth/choose' },
      ]}
    />
  )
}
