import type { Metadata } from 'next'
import { say } from '#language/say'
import { NotAllowedScreen } from './_gate/not-allowed-screen'

export const generateMetadata = (): Metadata => ({ title: say('Not for this account') })

export default function Forbidden() {
  return <NotAllowedScreen />
}
