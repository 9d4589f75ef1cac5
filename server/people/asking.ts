/** The parts of a request that signing in needs. */
export interface Asking {
  readonly headers: Headers
  /** Of the client, as far as it can be known. */
  readonly address: string
  /** Where the browser reaches the server, for links. */
  readonly origin: string
}

/** An answer with the cookies that go along, each as the text of a `set-cookie` header. */
export interface WithCookies<Answer> {
  readonly answer: Answer
  readonly cookies: readonly string[]
}

/** For signing in, a session that may still be there is nobody's business. */
export function headersWithout(headers: Headers, cookieName: string): Headers {
  const kept = (headers.get('cookie') ?? '')
    .split(';')
    .map((pair) => pair.trim())
    .filter((pair) => pair !== '' && !pair.startsWith(`${cookieName}=`))
  const copy = new Headers(headers)
  copy.delete('cookie')
  if (kept.length > 0) copy.set('cookie', kept.join('; '))
  return copy
}
