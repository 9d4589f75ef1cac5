import { createHash } from 'node:crypto'
import { promisify } from 'node:util'
import { gzip } from 'node:zlib'

const zip = promisify(gzip)

/** A large JSON answer as it is sent, so that it is written and folded once and not for each who asks. */
export class PreparedAnswer {
  readonly tag: string
  readonly plain: Uint8Array<ArrayBuffer>
  readonly gzipped: Uint8Array<ArrayBuffer>

  private constructor(tag: string, plain: Buffer, gzipped: Buffer) {
    this.tag = tag
    this.plain = new Uint8Array(plain)
    this.gzipped = new Uint8Array(gzipped)
  }

  static async of(content: unknown): Promise<PreparedAnswer> {
    const plain = Buffer.from(JSON.stringify(content))
    const tag = createHash('sha256').update(plain).digest('base64url')
    return new PreparedAnswer(tag, plain, await zip(plain))
  }
}

interface Kept {
  readonly state: string
  readonly answer: Promise<PreparedAnswer>
}

/** Some 2 MB each for a feeder of a thousand poles. */
const MOST_KEPT = 40

/** The answers given last, each for the state of the record that it was made of. */
export class PreparedAnswers {
  /** In the order of use, the longest unused first. */
  readonly #kept = new Map<string, Kept>()

  /**
   * The answer under the key, made again where the state is another one. Those who ask while it
   * is being made wait for the same.
   */
  give(key: string, state: string, make: () => Promise<unknown>): Promise<PreparedAnswer> {
    const known = this.#kept.get(key)
    const kept = known?.state === state ? known : { state, answer: make().then(PreparedAnswer.of) }
    this.#kept.delete(key)
    this.#kept.set(key, kept)
    const [oldest] = this.#kept.keys()
    if (this.#kept.size > MOST_KEPT && oldest !== undefined) this.#kept.delete(oldest)
    kept.answer.catch(() => this.#forget(key, kept))
    return kept.answer
  }

  #forget(key: string, kept: Kept): void {
    if (this.#kept.get(key) === kept) this.#kept.delete(key)
  }
}
