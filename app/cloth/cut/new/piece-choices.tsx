import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { CutChoices, ListedCandidate } from '#lib/db/cut-plan/read-cut-choices'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { PlaceLabel } from '#trade/place-label'
import { Button, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Ledger } from '#ui/ledger'
import { listed } from '#words/amounts'
import { pieceTitle } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { wishTitle } from '#words/cut-plan'
import { piecesMark } from '../choices'
import s from '../cut.module.css'
import type { ReadForm } from '../read-form'
import { PieceTick } from './piece-tick'

/** So many stand in sight; the others fold away, up to so many. */
const inSight = 15
const shownAtMost = 150

/** The pieces that something fits, those that are cut from ticked. */
export function PieceChoices({ read, choices }: { read: ReadForm; choices: CutChoices }) {
  const { form, viewer } = read
  const unit = viewer.settings.lengthUnit
  const { candidates, chosenIds, uselessIds, wishes } = choices
  if (candidates.length === 0)
    return (
      <Empty
        title={say('No free piece takes any of it')}
        actions={<LinkButton href="/cloth/yardage">{say('How much to buy for it')}</LinkButton>}
      >
        {say(
          'Pieces that are kept for a project or another plan are left out. Smaller margins may help, or any cloth that takes it.',
        )}
      </Empty>
    )
  const chosen = new Set(chosenIds)
  const titles = new Map(wishes.map((wish) => [wish.id, wishTitle(wish, wish.title, unit)]))
  const table = { chosen, titles, unit, wishCount: wishes.length }
  // A piece keeps its place when it is ticked, so that one can go on from it.
  const first = candidates.slice(0, inSight)
  const later = candidates.slice(inSight)
  const rest = [...later.slice(0, shownAtMost), ...later.slice(shownAtMost).filter(({ piece }) => chosen.has(piece.id))]
  return (
    <>
      <input type="hidden" name="taken" value={form.pieceIds === null ? piecesMark(chosenIds) : 'own'} />
      <p className="quiet">
        {form.pieceIds === null
          ? say(
              '{chosenIds, plural, one {# piece} other {# pieces}} of {candidates} suggested: the advised kind first, offcuts and smaller ones before larger. Tick others as you like.',
              { chosenIds: chosenIds.length, candidates: candidates.length },
            )
          : say('{chosenIds, plural, one {# piece} other {# pieces}} of {candidates} ticked.', {
              chosenIds: chosenIds.length,
              candidates: candidates.length,
            })}
        {uselessIds.length > 0 &&
          say(
            ' {uselessIds, plural, one {# piece} other {# pieces}} asked for cannot serve: too small, of another cloth, or kept for something else.',
            { uselessIds: uselessIds.length },
          )}
      </p>
      {form.pieceIds !== null && (
        <Button type="submit" kind="quiet" name="suggest" value="1">
          {say('Take what is suggested instead')}
        </Button>
      )}
      <PieceTable caption={say('Pieces that something fits, best first')} candidates={first} {...table} />
      {rest.length > 0 && (
        <details className={s.more} open={rest.some(({ piece }) => chosen.has(piece.id)) || undefined}>
          <summary>
            {rest.length < later.length
              ? say('The next {rest} of {later} more pieces', { rest: rest.length, later: later.length })
              : say('{later, plural, one {# more piece} other {# more pieces}} that would do', { later: later.length })}
          </summary>
          <PieceTable caption={say('More pieces that something fits')} candidates={rest} {...table} />
        </details>
      )}
    </>
  )
}

type PieceTableProps = {
  caption: string
  candidates: readonly ListedCandidate[]
  chosen: ReadonlySet<string>
  /** Of the wishes, by their ids. */
  titles: ReadonlyMap<string, string>
  wishCount: number
  unit: LengthUnit
}

function PieceTable({ caption, candidates, chosen, titles, wishCount, unit }: PieceTableProps) {
  const takes = ({ fits }: ListedCandidate) =>
    wishCount > 1 && fits.length === wishCount
      ? say('everything')
      : listed([...new Set(fits.map(({ wishId }) => titles.get(wishId) ?? ''))])
  return (
    <Ledger
      caption={caption}
      rows={candidates}
      rowKey={({ piece }) => piece.id}
      columns={[
        {
          key: 'tick',
          head: say('Cut from it'),
          headIsHidden: true,
          width: '3rem',
          phone: 'mark',
          cell: ({ piece }) => (
            <PieceTick
              id={piece.id}
              label={say('Cut from {pieceTitle}', { pieceTitle: pieceTitle(piece) })}
              isChosen={chosen.has(piece.id)}
            />
          ),
        },
        {
          key: 'piece',
          head: say('Piece'),
          phone: 'lead',
          cell: ({ piece }) => (
            <>
              <b>{pieceTitle(piece)}</b>
              {piece.isOffcut && say(', offcut')}
              {piece.reservedBy.length > 0 &&
                say(', kept for {reservedBy}', { reservedBy: listed(piece.reservedBy.map(({ title }) => title)) })}
            </>
          ),
        },
        {
          key: 'count',
          head: say('{as, select, other {Count}}'),
          isNumeric: true,
          phone: 'line',
          cell: ({ piece }) => <span className="nb">{countWords(piece.ends, piece.picks)}</span>,
        },
        {
          key: 'size',
          head: say('Size, weft × warp'),
          isNumeric: true,
          phone: 'side',
          cell: ({ piece }) => (
            <span className="nb">
              {formatClothSize(piece, unit)}
              {!piece.isSquared && <small className={s.second}>{say('square it first')}</small>}
            </span>
          ),
        },
        { key: 'takes', head: say('Takes'), phone: 'labelled', cell: takes },
        {
          key: 'place',
          head: say('Place'),
          isAtEnd: true,
          phone: 'side',
          cell: ({ piece }) => piece.current && <PlaceLabel label={piece.current.label} href={`/places/${piece.current.id}`} />,
        },
      ]}
    />
  )
}
