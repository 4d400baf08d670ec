import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { Design } from '#lib/chart/design'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { type CutWay, cutWaysOn } from '#lib/cloth/cut-plan'
import { isAdvisedCloth } from '#lib/cloth/match-cloth'
import { mostFrom } from '#lib/cloth/most-from'
import { type ClothSettings, overOn } from '#lib/coverage/cloth-answer'
import { clothRequest } from '#lib/coverage/worked-cloth'
import type { Answers } from '#lib/db/answers/answers'
import type { Count } from '#lib/quantity/count'
import { compareExact } from '#lib/stock/batch'
import { FormStrip, StripSelect } from '#ui/form-strip'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { pieceDescription, pieceName } from '#words/cloth'
import { cutPlanHref } from '#words/cut-plan-href'
import { type YardageQuery, yardageFields } from './question'
import s from './yardage.module.css'

/** More are not looked through by eye. */
const mostOffered = 200

type OnePieceProps = {
  answers: Answers
  ownerIds: readonly string[]
  query: YardageQuery
  size: { widthUm: number; heightUm: number } | null
  design: Design | null
  count: { count: Count; over: 1 | 2 | null } | null
  cloth: ClothSettings
  finishing: string
  mayTurn: boolean
  /** How many are hoped for from one piece. */
  wanted: number
}

/** How often the same cut comes out of one piece on hand. */
export function OnePiece({ answers, ownerIds, query, size, design, count, cloth, finishing, mayTurn, wanted }: OnePieceProps) {
  const { pieces, settings } = answers.world
  const unit = settings.lengthUnit
  const offered = pieces
    .filter((piece) => ownerIds.includes(piece.ownerId) && (size || !design?.advised || isAdvisedCloth(piece, design.advised)))
    .sort((a, b) => compareExact(pieceName(a), pieceName(b)) || compareExact(a.id, b.id))
    .slice(0, mostOffered)
  const waysOn = (piece: ClothPiece): CutWay[] => {
    if (size) {
      const upright = { ...size, isTurned: false }
      return mayTurn && piece.isTurnable && size.widthUm !== size.heightUm
        ? [upright, { widthUm: size.heightUm, heightUm: size.widthUm, isTurned: true }]
        : [upright]
    }
    const request = design && clothRequest(design, count?.over ?? overOn(piece.weave, design.advised), cloth)
    return request ? cutWaysOn(request, mayTurn ? piece : { ...piece, isTurnable: false }) : []
  }
  const piece = pieces.find(({ id, ownerId }) => id === query.piece && ownerIds.includes(ownerId))
  if (offered.length === 0 && !piece) return null
  const ways = piece ? waysOn(piece) : []
  const most = piece && mostFrom(piece, ways, { gapUm: settings.cutGapUm })
  const hidden = yardageFields({ ...query, piece: '' })
  return (
    <Section title={say('Out of one piece')} id="one-piece">
      <FormStrip
        action="/cloth/yardage"
        label={say('Which piece')}
        summary={piece ? pieceName(piece) : say('Choose a piece on hand')}
        hidden={hidden}
      >
        <StripSelect
          name="piece"
          label={say('A piece on hand')}
          value={piece?.id ?? ''}
          any={say('none')}
          options={offered.map((one) => ({
            value: one.id,
            label: say('{pieceName}, {one}{isReserved, select, yes {, kept for a project} other {}}', {
              pieceName: pieceName(one),
              one: formatClothSize(one, unit),
              isReserved: one.isReserved,
            }),
          }))}
        />
      </FormStrip>
      {piece && most && (
        <div className={`${s.notes} ${s.gap}`}>
          <p className={s.answer}>
            <b>
              {most.copies === 0
                ? say('None comes out of it.')
                : say('{copies, number} {copies, plural, one {comes} other {come}} out of it{rest}.', {
                    copies: most.copies,
                    rest: ways[0] ? say(', each {ways}', { ways: formatClothSize(ways[0], unit) }) : '',
                  })}
            </b>{' '}
            {most.copies >= wanted
              ? say('So {wanted, number} can be had.', { wanted })
              : most.copies > 0 && say('So {wanted, number} cannot.', { wanted })}
          </p>
          <p>
            <Link href={`/cloth/${piece.id}`}>{pieceName(piece)}</Link>: {pieceDescription(piece)}, {formatClothSize(piece, unit)}
            {piece.isSquared ? '' : say(', not squared yet: square it first, and ask again')}
            {piece.isReserved ? say('. It is kept for a project') : ''}.{' '}
            {most.isProved ? say('No straight cuts give more.') : say('More may be possible.')}
          </p>
          {design && most.copies > 0 && (
            <p>
              <Link href={cutPlanHref([{ id: design.id, copies: Math.min(most.copies, wanted), finishing }], [piece.id])}>
                {say('Plan the cuts')}
              </Link>
            </p>
          )}
        </div>
      )}
    </Section>
  )
}
