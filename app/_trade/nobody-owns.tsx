import type { ReactNode } from 'react'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'

/** Instead of a form for somebody's goods while there is no owner; `children` says why one is needed. */
export const NobodyOwns = ({ children }: { children: ReactNode }) => (
  <Empty
    title="Nobody owns anything yet"
    actions={
      <LinkButton kind="first" href="/settings">
        To Settings
      </LinkButton>
    }
  >
    {children} Name an owner first: yourself, or the shop.
  </Empty>
)
