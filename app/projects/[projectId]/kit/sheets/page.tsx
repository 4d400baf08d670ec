import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { readKitBags } from '#lib/db/kit-bag/queries'
import { Button, LinkButton } from '#ui/button'
import { ChoiceField, TextField } from '#ui/field'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { bagsText } from '#words/kit'
import s from '../bags/bags.module.css'

type PageProps = { params: Promise<{ projectId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const kit = await readKitBags((await params).projectId)
  return { title: kit ? `Sheets for ${kit.project.title}` : 'Sheets' }
}

const papers = [
  { value: 'a4', label: 'A4' },
  { value: 'letter', label: 'Letter' },
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
        title={`Sheets for ${kit.project.title}`}
        crumbs={[
          { label: 'Projects', href: '/projects' },
          { label: kit.project.title, href: `/projects/${projectId}` },
          { label: 'Bags', href: `${here}/bags` },
          { label: 'Sheets' },
        ]}
        byline="Each is a PDF, to print or to keep."
      />
      <Section title="Class sheet" note="one in every kit">
        <p className={s.quiet}>
          What is stitched and how large, what is in the kit, how to begin, and what to take care of. The chart and its key are
          not on it: each stitcher has the bought chart.
        </p>
        <form action={`${here}/sheets/class-sheet.pdf`} target="_blank" className={s.acts} rel="noopener">
          <ChoiceField name="paper" label="Paper" options={papers} defaultValue="a4" />
          <div>
            <Button kind="first" type="submit">
              Class sheet as PDF
            </Button>
          </div>
        </form>
      </Section>
      <Section title="Packing slips" note={`${counted(numbers.length, 'bag')}, the list each is packed and checked by`}>
        <form action={`${here}/sheets/packing-slips.pdf`} target="_blank" className={s.acts} rel="noopener">
          <TextField name="bags" label="Bags" defaultValue={bagsText(numbers)} width="half" />
          <ChoiceField name="paper" label="Paper" options={papers} defaultValue="a4" />
          <div>
            <Button kind="first" type="submit">
              Packing slips as PDF
            </Button>
          </div>
        </form>
      </Section>
      <Section title="Labels" note="for the bags, with a code that opens the project">
        <LinkButton href={`/labels?one=project.${projectId}`}>Labels</LinkButton>
      </Section>
    </>
  )
}
