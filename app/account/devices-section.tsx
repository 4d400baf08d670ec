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
      title="Devices"
      id="devices"
      note="Where you are signed in. One left alone for a week is signed out; after thirty days each asks again."
      actions={
        devices.length > 1 && (
          <Form
            action={endOtherDevicesAction}
            submit="Sign out all others"
            submitKind="plain"
            isInline
            label="All other devices"
          />
        )
      }
    >
      <Ledger
        caption="Devices you are signed in on"
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
    head: 'Device',
    phone: 'lead',
    width: '34%',
    cell: ({ id, device }) => (
      <>
        {deviceWords(device)}
        {id === sessionId && <span className={a.here}> · this one</span>}
      </>
    ),
  },
  {
    key: 'address',
    head: 'From',
    phone: 'labelled',
    cell: ({ address }) => <span className="nb">{address || 'not known'}</span>,
  },
  { key: 'since', head: 'Since', phone: 'labelled', cell: ({ createdAt }) => <span className="nb">{dayOf(createdAt)}</span> },
  { key: 'used', head: 'Last used', phone: 'labelled', cell: ({ usedAt }) => momentWords(usedAt) },
  {
    key: 'end',
    head: 'Sign out',
    headIsHidden: true,
    phone: 'line',
    isAtEnd: true,
    cell: ({ id, device }) =>
      id !== sessionId && (
        <div className={a.end}>
          <Form
            action={endDeviceAction}
            hidden={{ sessionId: id }}
            submit={<InRow act="Sign it out" of={deviceWords(device)} />}
            submitKind="quiet"
            isInline
          />
        </div>
      ),
  },
]
