import type { DemoRole } from '#contract/account.ts'

/**
 * Enters the demo of a running server as one of its people, as the button of the page does.
 *
 * @param url address of the server, without a slash at the end
 * @returns what a browser would send as `cookie`
 */
export async function enterDemo(url: string, role: DemoRole): Promise<string> {
  const answer = await fetch(`${url}/api/demo/enter`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ role }),
  })
  if (!answer.ok) throw new Error(`The demo did not let in: ${await answer.text()}`)
  return answer.headers
    .getSetCookie()
    .map((cookie) => cookie.split(';')[0])
    .join('; ')
}
