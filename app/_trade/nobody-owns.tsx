import type { ReactNode } from 'react'
import { say } from '#language/say'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'

/** Instead of a form for somebody's goods while there is no owner; `children` says why one is needed. */
export const NobodyOwns = ({ children }: { children: ReactNode }) => (
  <Empty
    title={say('Nobody owns anything yet')}
    actions={
      <LinkButton kind="first" href="/settings">
        {say('To Settings')}
      </LinkButton>
    }
  >
    {children} {say('Name an owner first: yourself, or the shop.')}
  </Empty>
)
