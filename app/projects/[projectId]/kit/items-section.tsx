import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Kit, KitProposals } from '#lib/db/kit/read-kit'
import type { KitItemRow } from '#lib/db/kit/read-kit-items'
import { kitItemKinds } from '#lib/project/kit/item'
import { formatPrice } from '#lib/quantity/money'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { counted } from '#words/amounts'
import { midSentence } from '#words/capital'
import { itemKindWords } from '#words/kit-item'
import { addKitItemAction, editKitItemAction, moveKitItemAction, removeKitItemAction } from './actions'
import s from './kit.module.css'

/** Stock that an item may be taken from. */
type NotionOption = { value: string; label: string }

type ItemsSectionProps = { kit: Kit; notions: readonly NotionOption[]; isOpen: boolean }

/** What else goes into every kit: needles, beads, findings, the class sheet; with what the design says should. */
export function ItemsSection({ kit, notions, isOpen }: ItemsSectionProps) {
  const { items, project, proposals } = kit
  const edit = { projectId: project.id, version: String(project.version) }
  return (
    <Section
      title={say('Other things in each kit')}
      id="items"
      note={items.length > 0 ? counted(items.length, 'line') : undefined}
    >
      {items.length === 0 ? (
        <Empty>{say('Needles, beads, findings and a class sheet stand here, with how many go into each kit.')}</Empty>
      ) : (
        <ul className={s.items}>
          {items.map((item, at) => (
            <li key={item.id} className={s.item}>
              <p>
                {sayParts('{name}, {perKit, number} in each {what}', {
                  name: <b>{item.name}</b>,
                  perKit: item.perKit,
                  what: (
                    <span className="quiet">
                      {[
                        midSentence(itemKindWords[item.kind]),
                        item.notion?.size,
                        item.notion ? null : say('no stock kept'),
                        item.note,
                      ]
                        .filter(Boolean)
                        .join(', ')}
                    </span>
                  ),
                })}
              </p>
              {isOpen && <ItemActs item={item} at={at} many={items.length} edit={edit} notions={notions} />}
            </li>
          ))}
        </ul>
      )}
      {isOpen && (
        <>
          <Proposals items={items} proposals={proposals} notions={notions} edit={edit} />
          <Unfold label={say('Add something to each kit')} isOpenAtFirst={items.length === 0}>
            <Form
              action={addKitItemAction}
              hidden={edit}
              submit={say('Add it')}
              clearsWhenDone
              label={say('Add something to each kit')}
            >
              <ItemFields notions={notions} />
            </Form>
          </Unfold>
          <p className="quiet">
            {say(
              'Needles are counted into each kit and again when it is checked. Keep the packets shut and away from children and pets.',
            )}
          </p>
        </>
      )}
    </Section>
  )
}

type Edit = { projectId: string; version: string }
type ItemActsProps = { item: KitItemRow; at: number; many: number; edit: Edit; notions: readonly NotionOption[] }

function ItemActs({ item, at, many, edit, notions }: ItemActsProps) {
  const hidden = { ...edit, itemId: item.id }
  const move = (to: 'up' | 'down') => (
    <Form
      action={moveKitItemAction}
      hidden={{ ...hidden, to }}
      submit={
        <>
          {to === 'up' ? say('Up') : say('Down')}
          <span className="vh"> {sayParts('with {name}', { name: item.name })}</span>
        </>
      }
      submitKind="quiet"
      isInline
    />
  )
  return (
    <div className={s.itemActs}>
      <Unfold label={sayParts('Change{name}', { name: <span className="vh"> {item.name}</span> })}>
        <Form action={editKitItemAction} hidden={hidden} submit={say('Save')} label={say('Change {name}', { name: item.name })}>
          <ItemFields item={item} notions={notions} />
        </Form>
      </Unfold>
      {at > 0 && move('up')}
      {at < many - 1 && move('down')}
      <ConfirmDialog
        opener={sayParts('Remove{name}', { name: <span className="vh"> {item.name}</span> })}
        openerKind="quiet"
        title={say('Leave {name} out of the kits?', { name: item.name })}
        confirm={say('Leave it out')}
        cancel={say('Keep it')}
        action={removeKitItemAction}
        hidden={hidden}
      >
        <p>{say('What was set aside of its stock is free again.')}</p>
      </ConfirmDialog>
    </div>
  )
}

function ItemFields({ item, notions }: { item?: KitItemRow; notions: readonly NotionOption[] }) {
  return (
    <>
      <FieldRow>
        <TextField name="name" label={say('Name')} defaultValue={item?.name} isRequired maxLength={120} width="half" />
        <SelectField
          name="kind"
          label={say('What it is')}
          defaultValue={item?.kind ?? 'needle'}
          options={kitItemKinds.map((kind) => ({ value: kind, label: itemKindWords[kind] }))}
          width="half"
        />
        <NumberField name="perKit" label={say('In each kit')} defaultValue={item?.perKit ?? 1} isWhole />
      </FieldRow>
      <FieldRow>
        <SelectField
          name="notionId"
          label={say('Taken from')}
          none={say('No stock is kept of it')}
          defaultValue={item?.notionId ?? ''}
          options={notions}
          hint={say('From your notions; as many as the kits take are reserved')}
          width="half"
        />
        <NumberField
          name="price"
          label={say('Price of one')}
          defaultValue={item?.priceMinor == null ? undefined : formatPrice(item.priceMinor, null)}
          hint={say('Where the stock has none')}
        />
        <TextField name="note" label={say('Note')} defaultValue={item?.note ?? undefined} maxLength={300} width="half" />
      </FieldRow>
    </>
  )
}

type ProposalsProps = { items: readonly KitItemRow[]; proposals: KitProposals; notions: readonly NotionOption[]; edit: Edit }

/** What the design itself says should be in a kit and is not on the list yet. */
function Proposals({ items, proposals, notions, edit }: ProposalsProps) {
  const { needle, beads } = proposals
  const has = (kind: string) => items.some((item) => item.kind === kind)
  const add = (fields: Record<string, string>, words: string) => (
    <Form action={addKitItemAction} hidden={{ ...edit, ...fields }} submit={words} submitKind="plain" isInline />
  )
  const sizes =
    needle &&
    (needle.coarsest === needle.finest
      ? `${needle.coarsest}`
      : say('{coarsest} to {finest}', { coarsest: needle.coarsest, finest: needle.finest }))
  const held = needle && notions.find(({ value }) => value === proposals.needleNotionId)
  const needsNeedle = needle !== null && !has('needle')
  const needsBeads = beads > 0 && !has('beads')
  if (!needsNeedle && !needsBeads) return null
  return (
    <div className={s.proposals}>
      {needsNeedle && (
        <>
          <span>{sayParts('For this count a tapestry needle of size {sizes} is usual.', { sizes })}</span>
          {add(
            {
              kind: 'needle',
              name: say('Tapestry needle, size {coarsest}', { coarsest: needle.coarsest }),
              perKit: '1',
              notionId: held?.value ?? '',
            },
            held
              ? say('Add one needle: {label}', { label: held.label })
              : say('Add one needle of size {coarsest}', { coarsest: needle.coarsest }),
          )}
        </>
      )}
      {needsBeads && (
        <>
          <span>{say('The key has {beads, plural, one {# bead} other {# beads}} sewn on.', { beads })}</span>
          {add(
            { kind: 'beads', name: say('Beads'), perKit: String(beads) },
            say('Add {beads, plural, one {# bead} other {# beads}}', { beads }),
          )}
        </>
      )}
    </div>
  )
}
