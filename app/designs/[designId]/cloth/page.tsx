import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { bleedRisk } from '#lib/cloth/care'
import { judgeClothContrast } from '#lib/cloth/contrast'
import { frameSizeOf } from '#lib/cloth/frame-opening'
import { answerDesignCloth, chosenOver } from '#lib/coverage/design-cloth'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { findClothPiece } from '#lib/db/cloth/queries'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { JumpMarks } from '#ui/jump-marks'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { pieceName } from '#words/cloth'
import { marginWords, overWords, roughSize, squaringWords } from '#words/cloth-size'
import { ChoiceStrip } from './choice-strip'
import { clothHref, readClothAddress } from './choices'
import s from './cloth.module.css'
import { CountsTable } from './counts-table'
import { FinishingsSection } from './finishings-section'
import { ShownPiece } from './shown-piece'
import { TriedSection } from './tried-section'
import { cutToTell, motifWords, withoutPiece } from './words'

type Props = { params: Promise<{ designId: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const detail = await findDesign((await params).designId)
  return { title: detail ? say('Cloth for {title}', { title: detail.design.title }) : say('Not found') }
}

export default async function DesignClothPage({ params, searchParams }: Props) {
  const { designId } = await params
  const [viewer, detail, answers] = await Promise.all([getViewer(), findDesign(designId), getAnswers()])
  if (!detail) notFound()
  const { design, lists } = detail
  const { settings, ownerIds, ownerName } = viewer
  const unit = settings.lengthUnit
  const address = readClothAddress(await searchParams, settings)
  const { choices, finishing, said } = address
  const { advised } = design
  const pieces = answers.world.pieces.filter((piece) => ownerIds.includes(piece.ownerId))
  const cloth = answerDesignCloth(design, pieces, choices, settings)
  const head = (answer: React.ReactNode) => (
    <PageHead
      title={sayParts('Cloth for {title}', { title: <span className="title">{design.title}</span> })}
      crumbs={[
        { label: say('Charts'), href: '/charts' },
        { label: design.title, href: `/designs/${designId}` },
        { label: say('Cloth') },
      ]}
      actions={
        <>
          {cloth && (
            <LinkButton kind="first" href={`/cloth/cut?design=${designId}`}>
              {say('Plan the cut')}
            </LinkButton>
          )}
          <LinkButton href={`/designs/${designId}`}>{say('Back to the design')}</LinkButton>
        </>
      }
    >
      {answer}
    </PageHead>
  )
  if (!cloth) {
    return (
      <>
        {head(null)}
        <Empty
          title={say('The size of this design is not known')}
          actions={<LinkButton href={`/designs/${designId}/edit`}>{say('Give its size')}</LinkButton>}
        >
          {say('Give its stitches, or its ruled size at a count, and its cloth is worked out here.')}
        </Empty>
      </>
    )
  }

  const { shown, size } = cloth
  const coverage = coverageOfDesign(answers, { design, lists }, { ownerIds })
  const list = lists.find(({ id }) => id === (address.listId ?? coverage?.comparison[0]?.listId)) ?? lists[0] ?? null
  const threadIds = [...new Set(list?.keyLines.flatMap((line) => line.threads.map(({ threadId }) => threadId)) ?? [])]
  const threads = threadIds.map((threadId) => ({ threadId, lab: answers.world.threads.get(threadId)?.lab ?? null }))
  const codeOf = (threadId: string) => answers.world.threads.get(threadId)?.code ?? '?'
  const contrastOn = (piece: { lab: Parameters<typeof judgeClothContrast>[0] }) =>
    threads.length > 0 ? judgeClothContrast(piece.lab, threads) : null
  const contrasts = new Map(
    cloth.counts.flatMap(({ piece }) => {
      const contrast = contrastOn(piece)
      return contrast ? [[piece.id, contrast] as const] : []
    }),
  )
  const shownRow = shown && (await findClothPiece(shown.piece.id))
  const bleeding =
    shownRow &&
    bleedRisk({
      cloth: shownRow,
      threads: threads.map(({ threadId, lab }) => {
        const line = answers.world.lines.get(answers.world.lineOfThread.get(threadId) ?? '')
        return { id: threadId, lab, isHandDyed: line?.dyeing === 'overdyed' }
      }),
    })
  const over = shown?.over ?? chosenOver(advised?.weave ?? 'single', choices.over, advised)
  const href = (changed: Record<string, string>) => clothHref(designId, said, changed)
  const place = shown && answers.world.places.get(shown.piece.currentPlaceId ?? shown.piece.homePlaceId ?? '')
  const frameHref = `/designs/${designId}/frame${said.piece ? `?${new URLSearchParams({ piece: said.piece })}` : ''}`
  const instead = withoutPiece(cloth, advised, over, unit)
  const marginsOf = address.hasOwnMargins ? say('own margins') : finishing
  const frame = shown && frameSizeOf(shown.fit.finished, settings.framing, { ...settings, uncertaintyUm: size.uncertaintyUm })

  return (
    <>
      {head(
        <p className={s.answer}>
          {shown && instead === null
            ? sayParts(
                '<b>Cut {cutToTell}</b> from {pieceName} {rest}{isTurned}. It comes out at {roughSize}, {over},{motif} with {margin}.{kindCase, select, yes { Nothing to spare: cut the exact size.} other {}}{rest2}',
                {
                  b: (words) => <b>{words}</b>,
                  cutToTell: formatClothSize(cutToTell(shown.fit), unit),
                  pieceName: pieceName(shown.piece),
                  rest: place && <PlaceLabel label={place.label} href={`/places/${place.id}`} />,
                  isTurned: shown.fit.isTurned
                    ? shown.upright.kind === 'fits'
                      ? say(', turned')
                      : say(', turned: it fits no other way')
                    : '',
                  roughSize: roughSize(shown.fit.finished, unit),
                  over: overWords(over),
                  motif: motifWords(choices.motifs),
                  margin: marginWords(choices.margins, unit),
                  kindCase: Boolean(shown.fit.kind === 'fits' && shown.fit.nothingToSpare),
                  rest2: shown.afterSquaring && ` ${squaringWords(shown.afterSquaring, unit)}`,
                },
              )
            : instead}
        </p>,
      )}
      <PrintLine>
        {sayParts('Cloth for {title}, {marginsOf}: {margin}; cloth of {ownerName}', {
          title: design.title,
          marginsOf,
          margin: marginWords(choices.margins, unit),
          ownerName,
        })}
      </PrintLine>
      <ChoiceStrip designId={designId} address={address} advised={advised} settings={settings} />
      {address.wrong.length > 0 && (
        <Notice kind="caution" title={say('Not everything reads')}>
          {address.wrong.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </Notice>
      )}
      {size.isEstimated && (
        <Notice kind="caution" title={say('Its size is estimated')}>
          {sayParts(
            'The chart gives {rest} at a count, which is about {width} × {height} stitches. Each side may be out by {uncertainty}; the cut allows for it.',
            {
              rest: design.size.kind === 'measured' ? formatClothSize(design.size, unit) : say('a ruled size'),
              width: size.width,
              height: size.height,
              uncertainty: formatClothLength(size.uncertaintyUm, unit),
            },
          )}
        </Notice>
      )}
      <JumpMarks
        items={[
          ...(cloth.tried.length > 0 ? [{ href: '#count' as const, label: say('On the count tried') }] : []),
          ...(shown ? [{ href: '#piece' as const, label: pieceName(shown.piece) }] : []),
          { href: '#counts', label: say('On every count') },
          ...(cloth.sizedOn ? [{ href: '#finishings' as const, label: say('Framed, ornament, other') }] : []),
          ...(frame ? [{ href: '#frame' as const, label: say('Frame') }] : []),
        ]}
      />
      {choices.count && <TriedSection cloth={cloth} count={choices.count} places={answers.world.places} unit={unit} />}
      {shown && (
        <Section
          title={pieceName(shown.piece)}
          id="piece"
          note={choices.pieceId === shown.piece.id ? say('Chosen by you.') : say('The best piece held.')}
          actions={
            <>
              {choices.pieceId && <Link href={href({ piece: '' })}>{say('Back to the best piece')}</Link>}
              {(shown.piece.weave === 'single' || over === 2) && (
                <Link href={href({ over: over === 2 ? '1' : '2' })}>
                  {say('What if it is worked over {overCase, select, yes {one} other {two}}?', { overCase: over === 2 })}
                </Link>
              )}
            </>
          }
        >
          <ShownPiece
            shown={shown}
            cloth={cloth}
            motifs={choices.motifs}
            margins={choices.margins}
            marginsOf={marginsOf}
            contrast={contrastOn(shown.piece)}
            bleeding={bleeding}
            codeOf={codeOf}
            places={answers.world.places}
            settings={settings}
          />
        </Section>
      )}
      <Section
        title={say('On every count on hand')}
        id="counts"
        note={
          list && threads.length > 0
            ? say('Threads of {name} held against each piece’s colour.', { name: list.name.toLowerCase() })
            : undefined
        }
      >
        {cloth.counts.length > 0 ? (
          <CountsTable
            counts={cloth.counts}
            contrasts={contrasts}
            advised={advised}
            places={answers.world.places}
            shownPieceId={shown?.piece.id ?? null}
            unit={unit}
            pieceHref={(pieceId) => `${href({ piece: pieceId })}#piece`}
          />
        ) : (
          <Empty title={say('No cloth yet')} actions={<LinkButton href="/cloth/new">{say('Add a piece')}</LinkButton>}>
            {say('Once there are pieces, this says how the design comes out on each of their counts.')}
          </Empty>
        )}
      </Section>
      <FinishingsSection cloth={cloth} address={address} settings={settings} href={href} action={`/designs/${designId}/cloth`} />
      {frame && shown && (
        <Section
          title={say('Frame')}
          id="frame"
          actions={<Link href={frameHref}>{say('Which counts do for a given opening?')}</Link>}
        >
          <p>
            {sayParts(
              'On {pieceName}: an opening of {roughSize}, with {seen} of plain cloth seen on every side; a board of {roughSize2}.',
              {
                pieceName: pieceName(shown.piece),
                roughSize: <b>{roughSize(frame.opening, unit)}</b>,
                seen: formatClothLength(settings.framing.seenUm, unit),
                roughSize2: roughSize(frame.board, unit),
              },
            )}
          </p>
        </Section>
      )}
    </>
  )
}
