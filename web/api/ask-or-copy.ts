import { ProblemError, readAnswer } from '#contract/read-answer.ts'
import type { Route, RouteInput, RouteOutput } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { askWhetherHere, connection, noteCopyShown, noteNoAnswer } from '../device/connection.ts'
import {
  type Copy,
  dropCopies,
  FOR_ANYONE,
  findCopy,
  isInPack,
  keepCopy,
  type NewCopy,
} from '../device/copies.ts'
import { sayNotKept } from '../device/device-troubles.ts'
import { keepingOf, type LooseInput, widerOf } from '../device/kept-routes.ts'
import { lastPerson, notePerson, personHere, personKnown } from '../device/person.ts'
import { requestOf, sendNoted, sendRequest } from './ask-server.ts'
import { isFromServer, isUnanswered, NoAnswerError } from './no-answer.ts'

type Output<Name extends RouteName> = RouteOutput<(typeof routes)[Name]>
type Input<Name extends RouteName> = RouteInput<(typeof routes)[Name]>

/** So long a person waits for the first sign of an answer where a copy is at hand. */
const FIRST_SIGN_WITHIN_MS = 4_000
/** Where the browser says that it is offline; a server on the same machine answers all the same. */
const OFFLINE_WITHIN_MS = 300
/** And so long for its end, once it has begun. */
const WHOLE_WITHIN_MS = 15_000

interface Found<Answer> {
  readonly answer: Answer
  readonly keptAt: string
}

/**
 * Asks the server; where no answer comes, gives the person's copy of an earlier one. As long as
 * the server is known to be away the copy is given at once.
 *
 * @throws ProblemError where the server refuses, NoAnswerError where there is neither
 */
export async function askOrCopy<Name extends RouteName>(
  name: Name,
  input: Input<Name>,
  signal?: AbortSignal,
): Promise<Output<Name>> {
  if (!connection.get().isHere) {
    const found = await findAnswer(name, input)
    if (found) return shown(name, found)
    if (!(await askWhetherHere())) throw new NoAnswerError()
  }
  let isHeard = false
  const asked = askAndKeep(name, input, {
    signal,
    onHeard: () => {
      isHeard = true
    },
  })
  try {
    return await Promise.race([asked, copyAfterWaiting(name, input, asked, () => isHeard)])
  } catch (error) {
    if (signal?.aborted || !isUnanswered(error)) throw error
    const found = await findAnswer(name, input)
    if (!found) throw error
    return shown(name, found)
  }
}

interface Asking {
  readonly signal?: AbortSignal
  /** Called once the answer begins. */
  readonly onHeard?: () => void
  /** The copy is wanted, and waited for, however large it is. */
  readonly isToBeKept?: boolean
}

/**
 * Asks the server and keeps the answer on the device, where answers of this route are.
 *
 * @throws ProblemError where the server refuses, NoAnswerError where none came, and what the
 * device says where the copy is wanted and does not fit
 */
export async function askAndKeep<Name extends RouteName>(
  name: Name,
  input: Input<Name>,
  { signal, onHeard, isToBeKept = false }: Asking,
): Promise<Output<Name>> {
  const route = routes[name]
  const request = requestOf(route, input, null)
  const askedBy = personHere.get()
  const answer = await sendNoted(request, sendRequest, signal)
  onHeard?.()
  const content = await contentOf(route, answer, signal)
  const { status, headers } = answer
  const source = {
    status,
    headers,
    json: async () => JSON.parse(content as string) as unknown,
    blob: async () => content as Blob,
  }
  const read = (await readAnswer(route, source).catch((error: unknown) => {
    if (error instanceof ProblemError) void forgetRefused(error, name, request.path)
    else if (!isFromServer(answer)) throw new NoAnswerError(error)
    throw error
  })) as Output<Name>
  if (name === 'getMe') await notePerson((read as Output<'getMe'>).id)
  const keeping = keep({ route: name, path: request.path, content }, askedBy, isToBeKept)
  if (isToBeKept) await keeping
  else keeping.catch(sayNotKept)
  return read
}

async function contentOf(
  { answer: { mediaType } }: Route,
  answer: Response,
  signal?: AbortSignal,
): Promise<string | Blob> {
  const isFile = answer.ok && mediaType === 'application/octet-stream'
  try {
    return await (isFile ? answer.blob() : answer.text())
  } catch (error) {
    if (signal?.aborted) throw error
    noteNoAnswer()
    throw new NoAnswerError(error)
  }
}

async function keep(
  copy: Omit<NewCopy, 'personId'>,
  askedBy: string | null,
  isToBeKept: boolean,
): Promise<void> {
  const { route, path } = copy
  const personId = isForAnyone(route) ? FOR_ANYONE : (askedBy ?? (await personKnown()))
  const isWanted = isToBeKept || keepingOf(route) === 'always' || (await isInPack(personId, path))
  if (isWanted) await keepCopy({ ...copy, personId })
}

/** What the server no longer gives the person must not be read from the device either. */
async function forgetRefused({ problem }: ProblemError, name: RouteName, path: string) {
  if (problem.code !== 'not-allowed' && problem.code !== 'not-found') return
  const personId = isForAnyone(name) ? FOR_ANYONE : await lastPerson()
  if (personId !== null) await dropCopies(personId, [path])
}

/** Gives the copy where the answer lets the person wait; otherwise never ends. */
function copyAfterWaiting<Name extends RouteName>(
  name: Name,
  input: Input<Name>,
  asked: Promise<unknown>,
  isHeard: () => boolean,
): Promise<Output<Name>> {
  return new Promise((resolve) => {
    const give = async () => {
      const found = await findAnswer(name, input)
      if (!found) return
      noteNoAnswer()
      resolve(shown(name, found))
    }
    const waitOn = () => {
      if (isHeard()) timer = setTimeout(() => void give(), WHOLE_WITHIN_MS)
      else void give()
    }
    const isOffline = globalThis.navigator?.onLine === false
    let timer = setTimeout(waitOn, isOffline ? OFFLINE_WITHIN_MS : FIRST_SIGN_WITHIN_MS)
    const stop = () => clearTimeout(timer)
    asked.then(stop, stop)
  })
}

function shown<Name extends RouteName>(
  name: Name,
  { answer, keptAt }: Found<Output<Name>>,
): Output<Name> {
  noteCopyShown(keptAt)
  if (name === 'getMe') void notePerson((answer as Output<'getMe'>).id)
  return answer
}

/** A copy that the device cannot read now is none; the person is told why no answer came. */
function findAnswer<Name extends RouteName>(
  name: Name,
  input: Input<Name>,
): Promise<Found<Output<Name>> | null> {
  return newestCopy(name, input).catch(() => null)
}

/** The newest copy that holds the answer, also one of a wider question; null where none does. */
async function newestCopy<Name extends RouteName>(
  name: Name,
  input: Input<Name>,
): Promise<Found<Output<Name>> | null> {
  const personId = isForAnyone(name) ? FOR_ANYONE : await lastPerson()
  if (personId === null) return null
  const wider = widerOf(name, input as LooseInput)
  const copies = await Promise.all([
    findCopy(personId, pathOf(name, input)),
    wider && findCopy(personId, pathOf(name, wider.input as Input<Name>)),
  ])
  const answers = copies.map((copy) => copy && readCopy(name, copy))
  const [exact, wide] = answers
  const narrowed = wider && wide ? wider.narrow(wide.answer) : null
  const fromWide = wide && narrowed !== null ? { ...wide, answer: narrowed as Output<Name> } : null
  if (!exact || !fromWide) return exact ?? fromWide
  return fromWide.keptAt > exact.keptAt ? fromWide : exact
}

/** What an older version of the page kept may no longer be what this one expects; then it is not there. */
function readCopy<Name extends RouteName>(
  name: Name,
  { note, content }: Copy,
): Found<Output<Name>> | null {
  if (typeof content !== 'string') return { answer: content as Output<Name>, keptAt: note.keptAt }
  const read = routes[name].answer.schema.safeParse(JSON.parse(content))
  return read.success ? { answer: read.data as Output<Name>, keptAt: note.keptAt } : null
}

function pathOf<Name extends RouteName>(name: Name, input: Input<Name>): string {
  return requestOf(routes[name], input, null).path
}

function isForAnyone(name: RouteName): boolean {
  return routes[name].right === 'anyone'
}
