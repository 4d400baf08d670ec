import { say } from '#language/say'
import { type Device, listDevices } from '#lib/db/access/sessions'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { dayOf, momentWords } from '#words/date'
import { deviceWords } from '#words/device'
import a from './account.module.css'
import { endDeviceAction, endOtherDevicesAction } from './actions'
import { InRow } from './in-row'

/** Where somebody is signed in. */
export async function DevicesSection({ accountId, sessionId }: { accountId: string; sessionId: string }) {
  const devices = await listDevices(accountId, new Date())
  return (
    <Section
      title={say('Devices')}
      id="devices"
      note={say('Where you are signed in. One left alone for a week is signed out; after thirty days each asks again.')}
      actions={
        devices.length > 1 && (
          <Form
            action={endOtherDevicesAction}
            submit={say('Sign out all others')}
            submitKind="plain"
            isInline
            label={say('All other devices')}
          />
        )
      }
    >
      <Ledger
        caption={say('Devices you are signed in on')}
        columns={columnsFor(sessionId)}
        rows={devices}
        rowKey={({ id }) => id}
        isTight
      />
    </Section>
  )
}

const columnsFor = (sessionId: string): readonly Column<Device>[] => [
  {
    key: 'device',
    head: say('Device'),
    phone: 'lead',
    width: '34%',
    cell: ({ id, device }) => (
      <>
        {deviceWords(device)}
        {id === sessionId && <span className={a.here}> {say('· this one')}</span>}
      </>
    ),
  },
  {
    key: 'address',
    head: say('From'),
    phone: 'labelled',
    cell: ({ address }) => <span className="nb">{address || say('not known')}</span>,
  },
  {
    key: 'since',
    head: say('Since'),
    phone: 'labelled',
    cell: ({ createdAt }) => <span className="nb">{dayOf(createdAt)}</span>,
  },
  { key: 'used', head: say('Last used'), phone: 'labelled', cell: ({ usedAt }) => momentWords(usedAt) },
  {
    key: 'end',
    head: say('Sign out'),
    headIsHidden: true,
    phone: 'line',
    isAtEnd: true,
    cell: ({ id, device }) =>
      id !== sessionId && (
        <div className={a.end}>
          <Form
            action={endDeviceAction}
            hidden={{ sessionId: id }}
            submit={<InRow act={say('Sign it out')} of={deviceWords(device)} />}
            submitKind="quiet"
            isInline
          />
        </div>
      ),
  },
]
