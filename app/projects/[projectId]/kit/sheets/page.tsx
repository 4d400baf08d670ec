import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { readKitBags } from '#lib/db/kit-bag/queries'
import { Button, LinkButton } from '#ui/button'
import { ChoiceField, TextField } from '#ui/field'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { bagsText } from '#words/kit'
import s from '../bags/bags.module.css'

type PageProps = { params: Promise<{ projectId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const kit = await readKitBags((await params).projectId)
  return { title: kit ? say('Sheets for {title}', { title: kit.project.title }) : say('Sheets') }
}

const papers = () => [
  { value: 'a4', label: 'A4' },
  { value: 'letter', label: say('Letter') },
]

/** What is printed for a batch of kits. Plain forms: the answer is a file, and no script is wanted for it. */
export default async function KitSheetsPage({ params }: PageProps) {
  const { projectId } = await params
  const kit = await readKitBags(projectId)
  if (!kit) notFound()
  const here = `/projects/${projectId}/kit`
  const numbers = kit.bags.map(({ number }) => number)
  return (
    <>
      <PageHead
        title={say('Sheets for {title}', { title: kit.project.title })}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: kit.project.title, href: `/projects/${projectId}` },
          { label: say('Bags'), href: `${here}/bags` },
          { label: say('Sheets') },
        ]}
        byline={say('Each is a PDF, to print or to keep.')}
      />
      <Section title={say('Class sheet')} note={say('one in every kit')}>
        <p className={s.quiet}>
          {say(
            'What is stitched and how large, what is in the kit, how to begin, and what to take care of. The chart and its key are not on it: each stitcher has the bought chart.',
          )}
        </p>
        <form action={`${here}/sheets/class-sheet.pdf`} target="_blank" className={s.acts} rel="noopener">
          <ChoiceField name="paper" label={say('Paper')} options={papers()} defaultValue="a4" />
          <div>
            <Button kind="first" type="submit">
              {say('Class sheet as PDF')}
            </Button>
          </div>
        </form>
      </Section>
      <Section
        title={say('Packing slips')}
        note={say('{numbers, plural, one {# bag} other {# bags}}, the list each is packed and checked by', {
          numbers: numbers.length,
        })}
      >
        <form action={`${here}/sheets/packing-slips.pdf`} target="_blank" className={s.acts} rel="noopener">
          <TextField name="bags" label={say('Bags')} defaultValue={bagsText(numbers)} width="half" />
          <ChoiceField name="paper" label={say('Paper')} options={papers()} defaultValue="a4" />
          <div>
            <Button kind="first" type="submit">
              {say('Packing slips as PDF')}
            </Button>
          </div>
        </form>
      </Section>
      <Section title={say('Labels')} note={say('for the bags, with a code that opens the project')}>
        <LinkButton href={`/labels?one=project.${projectId}`}>{say('Labels')}</LinkButton>
      </Section>
    </>
  )
}
