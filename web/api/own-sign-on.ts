import { z } from 'zod'
import { askLibrary } from './ask-library.ts'

/** Member of the page address by which a refused sign-on comes back. */
const REFUSED = 'sign-on'
const Leading = z.object({ url: z.url() })

/** Address of the utility's own sign-on, which comes back to where the page is now. */
export async function startOwnSignOn(): Promise<string> {
  const { pathname, search } = window.location
  const refused = new URLSearchParams(search)
  refused.set(REFUSED, 'refused')
  const { url } = await askLibrary('/sign-in/social', Leading, {
    provider: 'own-sign-on',
    callbackURL: pathname + search,
    errorCallbackURL: `${pathname}?${refused}`,
  })
  return url
}

/** Whether the person comes back from a sign-on that did not let them in. */
export function wasSignOnRefused(): boolean {
  return new URLSearchParams(window.location.search).has(REFUSED)
}
