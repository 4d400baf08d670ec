import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { cutAreas } from '#lib/cloth/cut-areas'
import type { CutLayout, CutPlan } from '#lib/cloth/cut-plan'
import { cutSteps, listOffcuts } from '#lib/cloth/cut-steps'
import type { AskedCut } from '#lib/coverage/asked-cut'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { CutDrawing } from '#trade/cut-drawing'
import { PlaceLabel } from '#trade/place-label'
import { Facts } from '#ui/facts'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { Steps } from '#ui/steps'
import { Sum } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { counted } from '#words/amounts'
import { areaWords } from '#words/cloth-size'
import { boundWords, leftOutWords } from '#words/cut-plan'
import { afterCutting, beforeCutting, type CutNames, cutNames, shearsCaution, stepWords } from '#words/cut-steps'
import s from './cut.module.css'

/** A piece as a plan shows it. */
export type ShownPiece = {
  id: string
  /** "C3-2", for drawings. */
  name: string
  /** What it is, for the head of its part. */
  description: string
  isSquared: boolean
  place: { id: string; label: string } | null
}

export type ShownPlan = {
  plan: CutPlan
  asked: Pick<AskedCut, 'objective' | 'gapUm' | 'wishes'>
  /** What each wish is called, by its id. */
  titles: ReadonlyMap<string, string>
  pieces: ReadonlyMap<string, ShownPiece>
  /** Wishes that fit some piece of the plan's choice. */
  fittingIds: ReadonlySet<string>
  unit: LengthUnit
}

/** The figures of a plan, what it leaves out, and how near it is to the best. */
export function PlanSum({ plan, asked, titles, fittingIds, unit }: ShownPlan) {
  const copies = asked.wishes.reduce((sum, wish) => sum + wish.copies, 0)
  const offcuts = plan.layouts.flatMap(listOffcuts)
  const areas = cutAreas(plan.layouts)
  const usedUm2 = areas.sheetUm2
  const left = new Map<string, number>()
  for (const { wishId } of plan.leftOut) left.set(wishId, (left.get(wishId) ?? 0) + 1)
  return (
    <>
      <p className={s.bound}>{boundWords(plan, asked.objective)}</p>
      <Facts
        items={[
          { label: say('Cut'), value: say('{copies} of {copies2}', { copies: copies - plan.leftOut.length, copies2: copies }) },
          { label: say('From'), value: counted(plan.layouts.length, 'piece') },
          { label: say('Cuts'), value: String(plan.cutCount) },
          {
            label: say('Waste'),
            value:
              usedUm2 > 0
                ? say('{area}, {percent} % of what is cut', {
                    area: areaWords(plan.wasteUm2, unit),
                    percent: Math.round((plan.wasteUm2 / usedUm2) * 100),
                  })
                : areaWords(plan.wasteUm2, unit),
          },
          {
            label: say('Offcuts kept'),
            value:
              offcuts.length === 0 ? say('none large enough') : offcuts.map((offcut) => formatClothSize(offcut, unit)).join(', '),
          },
        ]}
      />
      {usedUm2 > 0 && (
        <Unfold label={say('Where the cloth goes')}>
          <Sum
            title={say('Of the pieces that are cut')}
            rows={[
              { label: say('their cloth'), figure: areaWords(areas.sheetUm2, unit) },
              { label: say('wanted'), how: say('with margins'), figure: `− ${areaWords(areas.wantedUm2, unit)}` },
              { label: say('offcuts'), how: say('large enough to keep'), figure: `− ${areaWords(areas.offcutUm2, unit)}` },
              ...(areas.alongCutsUm2 > 0
                ? [
                    {
                      label: say('along the cuts'),
                      how: say('the gap asked for'),
                      figure: `− ${areaWords(areas.alongCutsUm2, unit)}`,
                    },
                  ]
                : []),
              { label: say('waste'), figure: areaWords(areas.wasteUm2, unit), kind: 'end' as const },
            ]}
          />
        </Unfold>
      )}
      {left.size > 0 && (
        <>
          <h3 className={s.leftHead}>{say('Left out')}</h3>
          <ul className={s.choices} aria-label={say('Left out')}>
            {[...left].map(([wishId, many]) => (
              <li key={wishId}>
                <span>
                  <span className="title">{titles.get(wishId)}</span>
                  {many > 1 && say(', {many} of them', { many })}
                  <small>{leftOutWords(fittingIds.has(wishId), plan.isProved)}</small>
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}

/** The drawings alone, while the search goes on. */
export function PlanDrawings({ plan, titles, pieces, unit }: ShownPlan) {
  const names = cutNames(plan.layouts, titles)
  return (
    <div className={s.drawings}>
      {plan.layouts.map((layout) => (
        <div key={layout.pieceId}>
          <h3>{pieces.get(layout.pieceId)?.name}</h3>
          <CutDrawing layout={layout} pieceName={pieces.get(layout.pieceId)?.name ?? ''} names={names} unit={unit} />
        </div>
      ))}
    </div>
  )
}

/** Each piece to scale, with its cuts in order. */
export function PlanPieces(shown: ShownPlan) {
  const { plan, titles } = shown
  const names = cutNames(plan.layouts, titles)
  if (plan.layouts.length === 0) return null
  return (
    <>
      {plan.layouts.map((layout) => (
        <PiecePart key={layout.pieceId} layout={layout} names={names} shown={shown} />
      ))}
      <div className={s.caution}>
        <Notice kind="caution" title={say('Shears')}>
          {shearsCaution()}
        </Notice>
      </div>
    </>
  )
}

function PiecePart({ layout, names, shown }: { layout: CutLayout; names: CutNames; shown: ShownPlan }) {
  const { pieces, asked, unit } = shown
  const piece = pieces.get(layout.pieceId)
  const size = { widthUm: layout.root.widthUm, heightUm: layout.root.heightUm }
  const steps = stepWords(cutSteps(layout), { ...names, unit })
  return (
    <Section
      title={piece ? <Link href={`/cloth/${piece.id}`}>{piece.name}</Link> : say('A piece that is gone')}
      note={[piece?.description, formatClothSize(size, unit)].filter(Boolean).join(', ')}
      actions={piece?.place && <PlaceLabel label={piece.place.label} href={`/places/${piece.place.id}`} />}
    >
      <div className={s.piece}>
        <CutDrawing layout={layout} pieceName={piece?.name ?? ''} names={names} unit={unit} />
        <div>
          <h3>{say('Before the first cut')}</h3>
          <ul className={s.notes}>
            {beforeCutting({ isSquared: piece?.isSquared ?? true, size, gapUm: asked.gapUm, unit }).map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <h3>{say('The cuts in order')}</h3>
          <Steps
            label={say('The cuts in order')}
            items={steps.map(({ number, act, results }) => (
              <div key={number}>
                <b>{act}</b>
                {results.map((result, at) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: two parts may be told in the same words
                  <span key={at} className={s.result}>
                    {result}
                  </span>
                ))}
              </div>
            ))}
          />
          <h3>{say('After the last cut')}</h3>
          <ul className={s.notes}>
            {afterCutting(layout).map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </div>
      </div>
    </Section>
  )
}
