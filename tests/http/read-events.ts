import { StudyEvent } from '#contract/studies.ts'
import { PLANNER, type TestServer } from './test-server.ts'

/** Events of a study as the stream gives them, until the server ends it or the caller leaves. */
export async function* readEvents(
  server: Pick<TestServer, 'address' | 'headersOf'>,
  studyId: string,
): AsyncGenerator<StudyEvent> {
  const leave = new AbortController()
  const headers = await server.headersOf(PLANNER)
  const address = `${server.address}/api/studies/${studyId}/events`
  const answer = await fetch(address, { headers, signal: leave.signal })
  if (!answer.body) throw new Error(`Expected a stream, got status ${answer.status}.`)
  try {
    let text = ''
    for await (const part of answer.body.pipeThrough(new TextDecoderStream())) {
      const blocks = (text + part).split('\n\n')
      text = blocks.pop() ?? ''
      yield* blocks.filter((block) => block.startsWith('event:')).map(parseEvent)
    }
  } finally {
    leave.abort()
  }
}

function parseEvent(block: string): StudyEvent {
  const lines = block.split('\n').map((line) => [line.slice(0, line.indexOf(':')), line] as const)
  const [event, data] = ['event', 'data'].map((name) => {
    const line = lines.find(([key]) => key === name)?.[1] ?? ''
    return line.slice(name.length + 1).trim()
  })
  return StudyEvent.parse({ event, data: JSON.parse(data ?? '') })
}
