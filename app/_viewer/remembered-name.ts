import { cookies } from 'next/headers'
import { nameCookie, nameCookieSeconds } from './name-cookie'

/** The name last given on this device: the next form begins with it. */
export const rememberedName = async (): Promise<string> => (await cookies()).get(nameCookie)?.value ?? ''

export async function rememberName(by: string): Promise<void> {
  ;(await cookies()).set(nameCookie, by, { path: '/', maxAge: nameCookieSeconds, sameSite: 'lax' })
}
