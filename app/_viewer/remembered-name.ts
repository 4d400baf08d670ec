import { cookies } from 'next/headers'
import { who } from '#lib/db/access/asking'
import { nameCookie, nameCookieSeconds } from './name-cookie'

/** Whoever signed in; without accounts, the name last given on this device. The next form begins with it. */
export async function rememberedName(): Promise<string> {
  const asks = who()
  return asks.kind === 'account' ? asks.name : ((await cookies()).get(nameCookie)?.value ?? '')
}

export async function rememberName(by: string): Promise<void> {
  ;(await cookies()).set(nameCookie, by, { path: '/', maxAge: nameCookieSeconds, sameSite: 'lax' })
}
