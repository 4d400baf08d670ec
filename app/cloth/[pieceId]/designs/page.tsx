import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { numberText } from '#language/figures'
import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { stitchSize } from '#lib/chart/design-size'
import { leftOfPiece } from '#lib/cloth/left-of-piece'
import { isAsAdvised } from '#lib/coverage/piece-uses'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findPieceDesigns, type PieceDesign, type PieceDesigns } from '#lib/db/answers/piece-designs'
import { findClothPiece } from '#lib/db/cloth/queries'
import { PlaceLabel } from '#trade/place-label'
import { TrayWord } from '#trade/tray'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import type { Option } from '#ui/field'
import { FormStrip, StripCheck, StripSelect } from '#ui/form-strip'
import { type Column, type Group, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { fitWords, pieceTitle } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { listStateWords } from '#words/cover'
import { PieceWords } from '../../piece-words'
import s from './designs.module.css'
import { choicesOf, type PieceDesignsQuery, pieceDesignsHref, pieceDesignsQuerySchema } from './query'
import { UseOnPiece } from './use-on-piece'

const pageSize = 40

type PageProps = { params: Promise<{ pieceId: string }>; searchParams: Promise<Record<string, unknown>> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const piece = await findClothPiece((await params).pieceId)
  return { title: piece ? say('What fits {pieceTitle}', { pieceTitle: pieceTitle(piece) }) : say('Cloth') }
}

export default async function PieceDesignsPage({ params, searchParams }: PageProps) {
  const piece = await findClothPiece((await params).pieceId)
  if (!piece || piece.isGone) notFound()
  const query = pieceDesignsQuerySchema.parse(await searchParams)
  const [{ settings, owners, ownerIds, ownerName }, answers] = await Promise.all([getViewer(), getAnswers()])
  const unit = settings.lengthUnit
  const found = findPieceDesigns(answers, piece, choicesOf(query, ownerIds), ownerIds)
  const pages = Math.max(1, Math.ceil(found.uses.length / pageSize))
  const page = Math.min(query.page, pages)
  const first = (page - 1) * pageSize
  const onPage = found.uses.slice(first, first + pageSize).map(found.describe)
  const engine = answers.coverage(ownerIds)
  const themeName = (id: string) => answers.world.themes.get(id)?.name ?? id
  const phrases = chosenPhrases(query, themeName)
  const isOurs = ownerIds.includes(piece.ownerId)

  const columns: Column<PieceDesign>[] = [
    {
      key: 'drawn',
      head: say('The piece, the cut and what is stitched, to scale'),
      headIsHidden: true,
      cell: ({ fit }) => <UseOnPiece piece={piece} fit={fit} />,
      width: '5rem',
      phone: 'mark',
    },
    {
      key: 'title',
      head: say('Design'),
      phone: 'lead',
      cell: ({ facts }) => (
        <>
          <span className={`title ${s.title}`}>{facts.design.title}</span>
          <span className={s.second}>
            {[
              listed(facts.designerIds.map((id) => answers.world.designers.get(id) ?? '')),
              facts.chartTitle !== facts.design.title && say('in {place}', { place: facts.chartTitle }),
            ]
              .filter(Boolean)
              .join(', ')}
          </span>
        </>
      ),
    },
    {
      key: 'out',
      head: say('Comes out at'),
      isNumeric: true,
      phone: 'side',
      cell: ({ facts, fit, over }) => {
        const size = stitchSize(facts.design)
        return (
          <span className="nb">
            {formatClothSize(toHundredth(fit.finished), unit)}
            <small className={s.second}>
              {sayParts('{rest} over {over, plural, one {one} other {two}}', {
                rest:
                  size &&
                  say('{isEstimated, select, yes {about } other {}}{width} × {height}', {
                    isEstimated: size.isEstimated,
                    width: size.width,
                    height: size.height,
                  }),
                over,
              })}
            </small>
          </span>
        )
      },
    },
    {
      key: 'fit',
      head: say('How it fits, and what is left'),
      phone: 'line',
      cell: (use) => (
        <>
          {sentenceCase(fitWords(use.fit, unit))}
          {use.fit.kind === 'fits' && !use.fit.fitsAfterSquaring && say(': it may not fit after')}
          <span className={s.second}>{leftWords(use, piece, settings)}</span>
        </>
      ),
    },
    {
      key: 'threads',
      head: say('Threads'),
      phone: 'line',
      cell: ({ designId, isWanted }) => {
        const answer = engine.answerFor(designId)?.best
        const wanted = isWanted ? 'wanted' : null
        if (!answer) return <TrayWord state="unknown" word={say('No thread list')} note={wanted} />
        const { state, word, note } = listStateWords(answer)
        return <TrayWord state={state} word={word} note={[note, wanted].filter(Boolean).join(', ') || null} />
      },
    },
    {
      key: 'place',
      head: say('Chart in'),
      isAtEnd: true,
      phone: 'side',
      cell: ({ facts }) => {
        const { places } = answers.world
        const home = places.get(facts.homePlaceId ?? '')
        const current = places.get(facts.currentPlaceId ?? facts.homePlaceId ?? '')
        return (
          current && (
            <PlaceLabel
              label={current.label}
              href={`/places/${current.id}`}
              livesIn={home && home.id !== current.id ? home.label : undefined}
            />
          )
        )
      },
    },
  ]

  return (
    <>
      <PageHead
        title={say('What fits {label}', { label: piece.label ?? piece.name })}
        crumbs={[
          { label: say('Cloth'), href: '/cloth' },
          { label: pieceTitle(piece), href: `/cloth/${piece.id}` },
          { label: say('What fits it') },
        ]}
        note={say('{uses, number} of {catalogue, plural, one {# design} other {# designs}}', {
          uses: found.uses.length,
          catalogue: answers.catalogue.size,
        })}
        actions={isOurs && <LinkButton href={`/cloth/cut?piece=${piece.id}`}>{say('Plan a cut from it')}</LinkButton>}
      >
        <p className={s.words}>
          <span>
            {formatClothSize(piece, unit)}, {countWords(piece.ends, piece.picks)}
          </span>
          <PieceWords piece={piece} hasOwner={ownerIds.length > 1 || !isOurs} isLinked />
        </p>
      </PageHead>
      <PrintLine>
        {sayParts('What fits {pieceTitle}, charts of {rest}{rest2}', {
          pieceTitle: pieceTitle(piece),
          rest: query.owner ? say('any owner') : ownerName,
          rest2: phrases.length > 0 && `: ${listed(phrases)}`,
        })}
      </PrintLine>
      <FormStrip
        action={`/cloth/${piece.id}/designs`}
        label={say('Which designs')}
        summary={
          phrases.length > 0
            ? say('Showing {phrases}', { phrases: listed(phrases) })
            : say('All charts of {ownerName} that fit, best use first', { ownerName })
        }
        clear={phrases.length > 0 ? { href: `/cloth/${piece.id}/designs`, label: say('All that fit') } : undefined}
        second={
          <>
            <StripCheck
              name="stitchableNow"
              label={say('Stitchable now, {stitchableNow, number}', { stitchableNow: found.stitchableNow })}
              isChecked={query.stitchableNow !== null}
            />
            <StripCheck name="asAsked" label={say('With full margins')} isChecked={query.asAsked !== null} />
          </>
        }
      >
        {piece.weave === 'single' && (
          <StripSelect
            name="over"
            label={say('Worked')}
            value={query.over ?? ''}
            any={say('over what suits')}
            options={[
              { value: '2', label: say('over two') },
              { value: '1', label: say('over one') },
            ]}
          />
        )}
        {(['season', 'subject', 'form'] as const).map((name) => (
          <StripSelect
            key={name}
            name={name}
            label={themeHeads[name]}
            value={query[name] ?? ''}
            any={say('any')}
            options={themeOptions(found.facets[name], query[name], themeName)}
          />
        ))}
        {owners.length > 1 && (
          <StripSelect
            name="owner"
            label={say('Charts of')}
            value={query.owner ?? ''}
            any={ownerName}
            options={[{ value: 'any', label: say('any owner') }]}
          />
        )}
      </FormStrip>
      {found.uses.length === 0 ? (
        <NothingFits pieceId={piece.id} isNarrowed={phrases.length > 0 || found.taken > 0} />
      ) : (
        <>
          <p className={s.order}>
            {say(
              'Each is drawn on the piece, to scale: the dashed line is the cut, the shaded part is stitched. In each part of the list what is wanted or has its threads comes first, then what leaves least over.',
            )}
          </p>
          <Ledger
            caption={say('Designs that fit {pieceTitle}, best use first', { pieceTitle: pieceTitle(piece) })}
            columns={columns}
            groups={grouped(onPage)}
            rowKey={({ designId }) => designId}
            rowHref={({ designId }) => `/designs/${designId}${isOurs ? `?piece=${piece.id}` : ''}`}
          />
          <Pager
            page={page}
            pages={pages}
            hrefForPage={(to) => pieceDesignsHref(piece.id, query, to)}
            shown={say('{first, number} to {first2, number} of {uses, number}', {
              first: first + 1,
              first2: first + onPage.length,
              uses: found.uses.length,
            })}
          />
        </>
      )}
    </>
  )
}

const themeHeads = sayings({ season: 'Season', subject: 'Subject', form: 'Form' })

function NothingFits({ pieceId, isNarrowed }: { pieceId: string; isNarrowed: boolean }) {
  return isNarrowed ? (
    <Empty
      title={say('Nothing that fits answers to all of these')}
      actions={<LinkButton href={`/cloth/${pieceId}/designs`}>{say('All that fit')}</LinkButton>}
    >
      {say('Let go of one choice. Over one makes a design half as large.')}
    </Empty>
  ) : (
    <Empty
      title={say('No design fits this piece')}
      actions={
        <>
          <LinkButton href={`/cloth/${pieceId}`}>{say('Back to the piece')}</LinkButton>
          <LinkButton href="/charts">{say('All charts')}</LinkButton>
        </>
      }
    >
      {say(
        'It is too small for every design whose size is known, even without margins. Designs whose stitches are not written down yet cannot be judged.',
      )}
    </Empty>
  )
}

/** Under heads, as they are ranked: full margins before smaller, advised before allowed. */
function grouped(designs: readonly PieceDesign[]): Group<PieceDesign>[] {
  const groups = new Map<string, PieceDesign[]>()
  for (const design of designs) {
    const title = say(
      '{isAsAsked, select, yes {Fits with its margins} other {Fits with smaller margins}}, {hasIsAsAdvised, select, yes {as its chart advises} other {otherwise than its chart advises}}',
      { isAsAsked: design.isAsAsked, hasIsAsAdvised: Boolean(isAsAdvised(design)) },
    )
    groups.set(title, [...(groups.get(title) ?? []), design])
  }
  return [...groups].map(([title, rows]) => ({
    key: title,
    title,
    note: say('{rows, plural, one {# design} other {# designs}} on this page', { rows: rows.length }),
    rows,
  }))
}

const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** Finished sizes in a list are for comparing: hundredths of an inch are enough. */
const toHundredth = ({ widthUm, heightUm }: { widthUm: number; heightUm: number }) => ({
  widthUm: Math.round(widthUm / 254) * 254,
  heightUm: Math.round(heightUm / 254) * 254,
})

function leftWords(
  { fit }: PieceDesign,
  piece: { widthUm: number; heightUm: number },
  { leastOffcutUm, lengthUnit }: { leastOffcutUm: number; lengthUnit: 'in' | 'cm' },
): string {
  const left = leftOfPiece(piece, fit, leastOffcutUm)
  if (left.length === 0) return say('leaves nothing worth keeping')
  return say('leaves {left}', { left: listed(left.map((size) => formatClothSize(size, lengthUnit))) })
}

/** The values of a facet with how many designs each would leave, by name. */
function themeOptions(counts: PieceDesigns['facets']['season'], chosen: string | null, nameOf: (id: string) => string): Option[] {
  const ids = new Set([...counts.keys(), ...(chosen === null ? [] : [chosen])])
  return [...ids]
    .map((value) => ({ value, label: `${nameOf(value)} (${numberText(counts.get(value) ?? 0)})` }))
    .sort((a, b) => (a.label < b.label ? -1 : 1))
}

function chosenPhrases(query: PieceDesignsQuery, nameOf: (id: string) => string): string[] {
  return [
    query.over && say('worked over {is, select, yes {one} other {two}}', { is: query.over === '1' }),
    ...[query.season, query.subject, query.form].map((id) => id && nameOf(id)),
    query.stitchableNow && say('stitchable now'),
    query.asAsked && say('with full margins'),
    query.owner && say('charts of any owner'),
  ].filter((phrase): phrase is string => phrase !== null)
}
