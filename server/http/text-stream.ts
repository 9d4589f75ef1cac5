/** Text as a stream of UTF-8, made as fast as it is taken; what makes it ends when nobody takes it. */
export function textStream(pieces: AsyncIterable<string>): ReadableStream<Uint8Array> {
  const iterator = pieces[Symbol.asyncIterator]()
  const encoder = new TextEncoder()
  return new ReadableStream({
    async pull(controller) {
      const { done, value } = await iterator.next()
      if (done) controller.close()
      else controller.enqueue(encoder.encode(value))
    },
    async cancel() {
      await iterator.return?.()
    },
  })
}
