import { NotAllowedScreen } from './_gate/not-allowed-screen'

export const metadata = { title: 'Not for this account' }

export default function Forbidden() {
  return <NotAllowedScreen />
}
