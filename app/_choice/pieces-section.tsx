import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { nodesOf } from '#lib/cloth/cut-plan'
import type { Answers } from '#lib/db/answers/answers'
import type { Chosen } from '#lib/db/planning/together/choice-jobs'
import type { PieceCut } from '#lib/db/planning/together/choose-designs'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { pieceDescription, pieceName } from '#words/cloth'
import { cutPlanHref } from '#words/cut-plan-href'
import { namesIn } from '#words/names'
import s from './choice.module.css'
import { addressOf, type ChoiceScreen } from './screens'
import { StartLink } from './start-link'

type PiecesSectionProps = { answer: Chosen; answers: Answers; screen: ChoiceScreen }

/** The designs chosen, by the piece they are cut from. */
export function PiecesSection({ answer: { choice, question }, answers, screen }: PiecesSectionProps) {
  if (choice.cuts.length === 0) return null
  const { settings, places } = answers.world
  const unit = settings.lengthUnit
  const { names } = namesIn(answers)
  const candidates = new Map(question.candidates.map((one) => [one.designId, one]))
  const pieceOf = new Map(question.pieces.map((piece) => [piece.id, piece]))
  return (
    <Section
      title={say('What each piece becomes')}
      id="pieces"
      note={say('Cut sizes, weft first. Nothing is cut or set aside yet.')}
      actions={<Link href={addressOf[screen]}>{say('Ask again')}</Link>}
    >
      <Ledger
        caption={say('The designs chosen, by the piece they are cut from')}
        groups={choice.cuts.map((cut) => {
          const piece = pieceOf.get(cut.pieceId)
          const place = places.get(piece?.currentPlaceId ?? piece?.homePlaceId ?? '')
          const copies = copiesIn(cut)
          return {
            key: cut.pieceId,
            title: (
              <>
                <Link href={`/cloth/${cut.pieceId}`}>{piece ? pieceName(piece) : say('A piece')}</Link>{' '}
                {place && <PlaceLabel label={place.label} href={`/places/${place.id}`} />}
              </>
            ),
            note: (
              <>
                {piece &&
                  say('{pieceDescription}, {piece}{isSquared, select, yes {} other {, square it first}} · ', {
                    pieceDescription: pieceDescription(piece),
                    piece: formatClothSize(piece, unit),
                    isSquared: piece.isSquared,
                  })}
                <Link href={cutPlanHref(copies, [cut.pieceId])}>
                  {sayParts('Plan the cut<span> of {rest}</span>', {
                    span: (words) => <span className="vh">{words}</span>,
                    rest: piece ? pieceName(piece) : say('this piece'),
                  })}
                </Link>
              </>
            ),
            rows: copies.map(({ id: designId, copies: count }) => ({ designId, count, size: sizeIn(cut, designId, unit) })),
          }
        })}
        rowKey={({ designId }) => designId}
        columns={[
          {
            key: 'design',
            head: say('Design'),
            phone: 'lead',
            cell: ({ designId, count }) => (
              <>
                <Link href={`/designs/${designId}`} className="title">
                  {names.design(designId)}
                </Link>
                {count > 1 && ` × ${count}`}
              </>
            ),
          },
          { key: 'cut', head: say('Cut'), isNumeric: true, phone: 'line', cell: ({ size }) => size },
          {
            key: 'value',
            head: say('Counts'),
            isNumeric: true,
            phone: 'side',
            cell: ({ designId }) => candidates.get(designId)?.value ?? '',
          },
          {
            key: 'start',
            head: say('Start it'),
            headIsHidden: true,
            isAtEnd: true,
            isOffPaper: true,
            phone: 'side',
            cell: ({ designId }) => (
              <StartLink designId={designId} title={names.design(designId)} candidate={candidates.get(designId)} />
            ),
          },
        ]}
      />
      {choice.cuts.length > 1 && (
        <div className={s.actions}>
          <LinkButton
            kind="first"
            href={cutPlanHref(
              choice.placed.map(({ designId, pieceIds }) => ({ id: designId, copies: pieceIds.length })),
              choice.cuts.map(({ pieceId }) => pieceId),
            )}
          >
            {say('Plan all these cuts')}
          </LinkButton>
        </div>
      )}
    </Section>
  )
}

const copiesIn = ({ designIds }: PieceCut): { id: string; copies: number }[] =>
  [...new Set(designIds)].map((id) => ({ id, copies: designIds.filter((one) => one === id).length }))

function sizeIn({ layout }: PieceCut, designId: string, unit: Parameters<typeof formatClothSize>[1]): string {
  for (const node of nodesOf(layout.root))
    if (node.kind === 'wanted' && node.wishId === designId)
      return `${formatClothSize(node, unit)}${node.isTurned ? say(', turned') : ''}`
  return ''
}
