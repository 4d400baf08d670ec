import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findDesignCard, listChartOptions } from '#lib/db/chart/queries'
import { ButtonRow, LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { editDesignAction, removeDesignAction } from '../../../_charts/actions'
import { DesignFields } from '../../../_charts/design-fields'

export const generateMetadata = (): Metadata => ({ title: say('Change a design') })

export default async function EditDesignPage({ params }: { params: Promise<{ designId: string }> }) {
  const { designId } = await params
  const [card, options, { settings }] = await Promise.all([findDesignCard(designId), listChartOptions(), getViewer()])
  if (!card) notFound()
  const { input, chart } = card
  const hidden = { id: card.id, version: String(card.version) }
  return (
    <>
      <PageHead
        title={say('Change {title}', { title: input.title })}
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          { label: chart.title, href: `/charts/${chart.id}` },
          { label: input.title, href: `/designs/${card.id}` },
          { label: say('Change') },
        ]}
      />
      <Form
        action={editDesignAction}
        hidden={hidden}
        submit={say('Save')}
        actions={<LinkButton href={`/designs/${card.id}`}>{say('Leave it')}</LinkButton>}
        label={say('The design')}
      >
        <DesignFields held={input} options={options} unit={settings.lengthUnit} />
      </Form>
      {chart.designCount > 1 && (
        <Section title={say('Take it out of its chart')}>
          <ButtonRow>
            <ConfirmDialog
              opener={say('Take the design out')}
              title={say('Take {title} out of {title2}?', { title: input.title, title2: chart.title })}
              confirm={say('Take it out')}
              action={removeDesignAction}
              hidden={hidden}
            >
              <p>{say('Its thread lists go with it. This cannot be undone.')}</p>
            </ConfirmDialog>
          </ButtonRow>
        </Section>
      )}
    </>
  )
}
