import { say } from '#language/say'
import { careOf } from '#lib/cloth/care'
import type { ClothDetail } from '#lib/db/cloth/queries'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { bleedTestWords, careWords, dyeingWords, shrinkageWords } from '#words/cloth-care'
import { BleedTestForm, WashForm } from '../care-forms'
import s from './piece.module.css'

type CareSectionProps = {
  piece: ClothDetail
  unit: LengthUnit
  shrinkPercent: number
  /** yyyy-mm-dd */
  today: string
}

/** How a piece was dyed and washed, what to mind with it, and where a wash or a test is written down. */
export function CareSection({ piece, unit, shrinkPercent, today }: CareSectionProps) {
  const notes = careOf(piece)
  const facts = [
    { label: say('Colour'), value: piece.dyeing ? dyeingWords[piece.dyeing] : say('Nobody said how it was dyed.') },
    { label: say('Washing'), value: shrinkageWords(piece, shrinkPercent) },
    {
      label: say('Wet on white'),
      value: piece.bleedTest === null ? say('not tried') : bleedTestWords(piece.bleedTest, piece.bleedTestedOn),
    },
  ]
  return (
    <Section
      title={say('Care')}
      id="care"
      actions={<LinkButton href={`/cloth/count?piece=${piece.id}`}>{say('Count it')}</LinkButton>}
    >
      <div className={s.care}>
        <Facts items={facts} isStacked />
        <div className={s.notes}>
          {notes.map((note) => {
            const { title, words } = careWords(note)
            return (
              <Notice key={note.kind} kind="caution" title={title}>
                {words}
              </Notice>
            )
          })}
          <div className={s.forms}>
            <Unfold label={say('It was washed')}>
              <WashForm piece={piece} unit={unit} today={today} />
            </Unfold>
            <Unfold label={say('It was tried for bleeding')}>
              <BleedTestForm piece={piece} today={today} />
            </Unfold>
          </div>
        </div>
      </div>
    </Section>
  )
}
