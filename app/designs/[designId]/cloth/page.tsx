import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothLength, formatClothSize } from '#language/lengths'
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
  return { title: detail ? `Cloth for ${detail.design.title}` : 'Not found' }
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
      title={
        <>
          Cloth for <span className="title">{design.title}</span>
        </>
      }
      crumbs={[{ label: 'Charts', href: '/charts' }, { label: design.title, href: `/designs/${designId}` }, { label: 'Cloth' }]}
      actions={
        <>
          {cloth && (
            <LinkButton kind="first" href={`/cloth/cut?design=${designId}`}>
              Plan the cut
            </LinkButton>
          )}
          <LinkButton href={`/designs/${designId}`}>Back to the design</LinkButton>
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
          title="The size of this design is not known"
          actions={<LinkButton href={`/designs/${designId}/edit`}>Give its size</LinkButton>}
        >
          Give its stitches, or its inches at a count, and its cloth is worked out here.
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
  const marginsOf = address.hasOwnMargins ? 'own margins' : finishing
  const frame = shown && frameSizeOf(shown.fit.finished, settings.framing, { ...settings, uncertaintyUm: size.uncertaintyUm })

  return (
    <>
      {head(
        <p className={s.answer}>
          {shown && instead === null ? (
            <>
              <b>Cut {formatClothSize(cutToTell(shown.fit), unit)}</b> from {pieceName(shown.piece)}{' '}
              {place && <PlaceLabel label={place.label} href={`/places/${place.id}`} />}
              {shown.fit.isTurned ? (shown.upright.kind === 'fits' ? ', turned' : ', turned: it fits no other way') : ''}. It
              comes out at {roughSize(shown.fit.finished, unit)}, {overWords(over)},{motifWords(choices.motifs)} with{' '}
              {marginWords(choices.margins, unit)}.
              {shown.fit.kind === 'fits' && shown.fit.nothingToSpare && ' Nothing to spare: cut the exact size.'}
              {shown.afterSquaring && ` ${squaringWords(shown.afterSquaring, unit)}`}
            </>
          ) : (
            instead
          )}
        </p>,
      )}
      <PrintLine>
        Cloth for {design.title}, {marginsOf}: {marginWords(choices.margins, unit)}; cloth of {ownerName}
      </PrintLine>
      <ChoiceStrip designId={designId} address={address} advised={advised} settings={settings} />
      {address.wrong.length > 0 && (
        <Notice kind="caution" title="Not everything reads">
          {address.wrong.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </Notice>
      )}
      {size.isEstimated && (
        <Notice kind="caution" title="Its size is estimated">
          The chart gives {design.size.kind === 'measured' ? formatClothSize(design.size, unit) : 'inches'} at a count, which is
          about {size.width} × {size.height} stitches. Each side may be out by {formatClothLength(size.uncertaintyUm, unit)}; the
          cut allows for it.
        </Notice>
      )}
      <JumpMarks
        items={[
          ...(cloth.tried.length > 0 ? [{ href: '#count' as const, label: 'On the count tried' }] : []),
          ...(shown ? [{ href: '#piece' as const, label: pieceName(shown.piece) }] : []),
          { href: '#counts', label: 'On every count' },
          ...(cloth.sizedOn ? [{ href: '#finishings' as const, label: 'Framed, ornament, other' }] : []),
          ...(frame ? [{ href: '#frame' as const, label: 'Frame' }] : []),
        ]}
      />
      {choices.count && <TriedSection cloth={cloth} count={choices.count} places={answers.world.places} unit={unit} />}
      {shown && (
        <Section
          title={pieceName(shown.piece)}
          id="piece"
          note={choices.pieceId === shown.piece.id ? 'Chosen by you.' : 'The best piece held.'}
          actions={
            <>
              {choices.pieceId && <Link href={href({ piece: '' })}>Back to the best piece</Link>}
              {(shown.piece.weave === 'single' || over === 2) && (
                <Link href={href({ over: over === 2 ? '1' : '2' })}>What if it is worked over {over === 2 ? 'one' : 'two'}?</Link>
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
        title="On every count on hand"
        id="counts"
        note={list && threads.length > 0 ? `Threads of ${list.name.toLowerCase()} held against each piece’s colour.` : undefined}
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
          <Empty title="No cloth yet" actions={<LinkButton href="/cloth/new">Add a piece</LinkButton>}>
            Once there are pieces, this says how the design comes out on each of their counts.
          </Empty>
        )}
      </Section>
      <FinishingsSection cloth={cloth} address={address} settings={settings} href={href} action={`/designs/${designId}/cloth`} />
      {frame && shown && (
        <Section title="Frame" id="frame" actions={<Link href={frameHref}>Which counts do for a given opening?</Link>}>
          <p>
            On {pieceName(shown.piece)}: an opening of <b>{roughSize(frame.opening, unit)}</b>, with{' '}
            {formatClothLength(settings.framing.seenUm, unit)} of plain cloth seen on every side; a board of{' '}
            {roughSize(frame.board, unit)}.
          </p>
        </Section>
      )}
    </>
  )
}
