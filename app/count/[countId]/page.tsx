import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findCount, readSheet } from '#lib/db/count/queries'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { rememberedName } from '#viewer/remembered-name'
import { dayOf } from '#words/date'
import { addFoundAction, dropCountAction, finishCountingAction } from '../actions'
import { statusWords } from '../words'
import s from './count.module.css'
import { CountSheet } from './count-sheet'
import { FoundHere } from './found-here'

type PageProps = { params: Promise<{ countId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const count = await findCount((await params).countId)
  return { title: count ? say('Count of {title}', { title: count.title }) : say('Count') }
}

export default async function CountSheetPage({ params }: PageProps) {
  const count = await findCount((await params).countId)
  if (!count) notFound()
  const [{ lines, places }, name] = await Promise.all([readSheet(count), rememberedName()])
  const isOpen = count.status === 'open'
  const left = lines.filter((line) => line.counted === null).length
  const differences = `/count/${count.id}/differences`
  const began = say('Begun {startedAt}{rest}', {
    startedAt: dayOf(count.startedAt),
    rest: count.startedBy ? say(' by {startedBy}', { startedBy: count.startedBy }) : '',
  })
  return (
    <>
      <PageHead
        title={say('Count of {title}', { title: count.title })}
        crumbs={[{ label: say('Count'), href: '/count' }, { label: count.title }]}
        byline={say(
          '{began}; {status}. Count whole skeins, hanks and spools; leave part ones out. What the record expects is not shown, so that the figure is yours.',
          { began, status: statusWords[count.status] },
        )}
        actions={!isOpen && <LinkButton href={differences}>{say('Compare with the record')}</LinkButton>}
      >
        {lines.length > 0 &&
          (left === 0
            ? say('All lines are counted')
            : say('{left, plural, one {# line} other {# lines}} of {lines} to count', { left, lines: lines.length }))}
      </PageHead>
      <PrintLine>{say('Counted by ______________________________ on ______________')}</PrintLine>
      {lines.length === 0 ? (
        <Empty title={say('Nothing to count here')}>
          {say('Counting is over. A line that looks wrong can be sent to be counted again from the comparison.')}
        </Empty>
      ) : (
        <Section title={isOpen ? say('In walking order') : say('To be counted again')}>
          <CountSheet count={count} lines={lines} name={name} />
        </Section>
      )}
      {isOpen && (
        <div className={s.screen}>
          <Section
            title={say('Found here, not on the sheet')}
            note={say('From the shelf to the list: every count wants both ways.')}
          >
            <Form
              action={addFoundAction}
              hidden={{ countId: count.id }}
              submit={say('Write it down')}
              submitKind="plain"
              clearsWhenDone
              label={say('Found here, not on the sheet')}
            >
              <FoundHere countId={count.id} />
              <TextField
                name="found"
                label={say('What the label says')}
                placeholder={say('Larkholm 0742')}
                width="half"
                isRequired
              />
              <SelectField
                name="placeId"
                label={say('Where it stands')}
                width="half"
                options={places.map(({ id, label }) => ({ value: id, label }))}
              />
              <NumberField
                name="counted"
                label={say('How many')}
                isWhole
                isRequired
                hint={say('To take it off again, write 0 on the sheet')}
              />
              <TextField name="by" label={say('Who counts')} defaultValue={name} autoComplete="name" width="half" isRequired />
            </Form>
          </Section>
          <Section title={say('When all of it is counted')}>
            <Form
              action={finishCountingAction}
              hidden={{ countId: count.id }}
              submit={say('Counting is over: compare')}
              submitKind="plain"
            >
              <p>{say('Save first. Lines nobody counted stay uncounted, and the comparison names them.')}</p>
            </Form>
            <div className={s.ends}>
              <ConfirmDialog
                opener={say('Give the count up')}
                openerKind="quiet"
                title={say('Give this count up?')}
                confirm={say('Give it up')}
                action={dropCountAction}
                hidden={{ countId: count.id }}
              >
                <p>{say('Its figures are kept to read, and the record stays as it is. It cannot be taken up again.')}</p>
              </ConfirmDialog>
            </div>
          </Section>
        </div>
      )}
    </>
  )
}
