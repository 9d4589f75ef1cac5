import { ChangeEvent } from '#contract/history.ts'

export interface Following {
  /** What came so far, in order. */
  readonly events: ChangeEvent[]
  /** Waits until so many events of the record came, and gives them. */
  changes(count: number): Promise<Extract<ChangeEvent, { event: 'change' }>[]>
  /** Settles when the server ends the stream. */
  readonly ended: Promise<void>
  leave(): void
}

/** Follows the changes of a server as a browser would; settles once it is told from where on. */
export async function followChanges(
  address: string,
  headers: Readonly<Record<string, string>>,
  query = '',
): Promise<Following> {
  const leaving = new AbortController()
  const answer = await fetch(`${address}/api/changes${query}`, { headers, signal: leaving.signal })
  if (!answer.ok || !answer.body) {
    throw new Error(`Expected a stream, got ${answer.status}: ${await answer.text()}`)
  }
  const events: ChangeEvent[] = []
  let wake = () => {}
  const ended = readInto(answer.body, (event) => {
    events.push(event)
    wake()
  })
  const until = async (isEnough: () => boolean) => {
    while (!isEnough()) {
      await Promise.race([new Promise<void>((resolve) => (wake = resolve)), failed(ended)])
    }
  }
  const changesSoFar = () =>
    events.filter(
      (event): event is Extract<ChangeEvent, { event: 'change' }> => event.event === 'change',
    )
  await until(() => events.length > 0)
  return {
    events,
    changes: async (count) => {
      await until(() => changesSoFar().length >= count)
      return changesSoFar()
    },
    ended,
    leave: () => leaving.abort(),
  }
}

async function failed(ended: Promise<void>): Promise<never> {
  await ended
  throw new Error('The stream ended before what was waited for had come.')
}

async function readInto(
  body: ReadableStream<Uint8Array<ArrayBuffer>>,
  tell: (event: ChangeEvent) => void,
): Promise<void> {
  let text = ''
  try {
    for await (const part of body.pipeThrough(new TextDecoderStream())) {
      const blocks = (text + part).split('\n\n')
      text = blocks.pop() ?? ''
      for (const block of blocks) {
        if (!block.startsWith(':')) tell(eventOf(block))
      }
    }
  } catch {
    // The line broke, or the test left.
  }
}

function eventOf(block: string): ChangeEvent {
  const fields = Object.fromEntries(
    block.split('\n').map((line) => {
      const colon = line.indexOf(':')
      return [line.slice(0, colon), line.slice(colon + 1).trim()]
    }),
  )
  return ChangeEvent.parse({ ...fields, data: JSON.parse(fields.data ?? '') })
}
