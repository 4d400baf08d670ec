import NextLink from 'next/link'
import type { ComponentProps } from 'react'

/**
 * A link to another screen. Nothing is fetched ahead: every screen says what is on record at that moment, and a list of fifty links
 * would have the server make fifty screens that nobody opens.
 */
export function Link(props: Omit<ComponentProps<typeof NextLink>, 'prefetch'>) {
  return <NextLink {...props} prefetch={false} />
}
