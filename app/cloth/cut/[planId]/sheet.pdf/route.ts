import { z } from 'zod'
import { say } from '#language/say'
import { type CutPlanDetail, findCutPlan } from '#lib/db/cut-plan/queries'
import { cutPlanPdf } from '#lib/printing/pdf/cut-plan-pdf'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { getViewer } from '#viewer/viewer'
import { pieceTitle } from '#words/cloth'
import { cutSheet, type PrintedCutPlan } from '#words/cut-sheet'
import { dayOf } from '#words/date'
import { shownPlan } from '../../shown-plan'

/** A4 with drawings to scale unless the address says otherwise. */
const askedSchema = z.object({
  paper: z.enum(['a4', 'letter']).default('a4'),
  size: z.enum(['scale', 'actual']).default('scale'),
})

/** A plan of cuts to print. */
export async function GET(request: Request, { params }: { params: Promise<{ planId: string }> }): Promise<Response> {
  const asked = askedSchema.safeParse(Object.fromEntries(new URL(request.url).searchParams))
  if (!asked.success)
    return refusal(say('A sheet is printed with paper=a4 or paper=letter, and with size=scale or size=actual.'), 400)
  const plan = await findCutPlan((await params).planId)
  if (plan === null) return refusal(say('There is no such plan of cuts.'), 404)
  const { settings, ownerName } = await getViewer()
  const unit = settings.lengthUnit
  const pdf = await cutPlanPdf(cutSheet(printedPlan(plan, { ownerName, unit }), unit), {
    ...asked.data,
    createdAt: plan.createdAt,
  })
  if (!pdf.ok) {
    const { sheets, mostSheets } = pdf.error
    return refusal(
      say(
        'In actual size this plan takes {sheets} sheets; more than {mostSheets} are not printed. Print the drawing to scale and measure by its steps.',
        { sheets, mostSheets },
      ),
      422,
    )
  }
  return new Response(new Uint8Array(pdf.value), {
    headers: {
      ...headers,
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${fileName(plan.title)}"`,
      'cross-origin-resource-policy': 'same-origin',
    },
  })
}

const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'private, no-store' }

const refusal = (sentence: string, status: number): Response =>
  new Response(sentence, { status, headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' } })

function printedPlan(kept: CutPlanDetail, { ownerName, unit }: { ownerName: string; unit: LengthUnit }): PrintedCutPlan {
  const { title, plan, pieces, asked, createdAt } = kept
  return {
    title,
    layouts: plan.layouts,
    titles: shownPlan(kept, pieces, unit).titles,
    pieces: pieces.map((piece) => ({ id: piece.id, title: pieceTitle(piece), isSquared: piece.isSquared })),
    gapUm: asked.gapUm,
    footer: [ownerName, dayOf(createdAt)].filter(Boolean).join(' · '),
  }
}

/** Plain letters only: it goes into a header. */
function fileName(title: string): string {
  const plain = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 60)
    .replace(/^-|-$/g, '')
  return `cuts${plain && `-${plain}`}.pdf`
}
