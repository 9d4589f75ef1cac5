import { readRow, writeRowsAnyhow } from './device-store.ts'
import { shareValue } from './shared-value.ts'

const LAST_PERSON = 'last-person'

/** Who is signed in on this page; null before that is known. */
export const personHere = shareValue<string | null>(null)

/**
 * Says who is signed in. The device remembers it for a start without connection; null once the
 * server has said that nobody is.
 */
export async function notePerson(personId: string | null): Promise<void> {
  personHere.set(personId)
  if (personId === null) await writeRowsAnyhow([{ table: 'facts', drop: LAST_PERSON }])
  else await writeRowsAnyhow([{ table: 'facts', put: { name: LAST_PERSON, value: personId } }])
}

/** Who is signed in, or was last, as far as this page or else the device knows. */
export async function lastPerson(): Promise<string | null> {
  return personHere.get() ?? (await personOnDevice())
}

/** Who signed in last on the device, perhaps in another window. */
export async function personOnDevice(): Promise<string | null> {
  return (await readRow('facts', LAST_PERSON))?.value ?? null
}

/** Resolves once it is known who is signed in. */
export function personKnown(): Promise<string> {
  return new Promise((resolve) => {
    const look = () => {
      const personId = personHere.get()
      if (personId === null) return
      leave()
      resolve(personId)
    }
    const leave = personHere.follow(look)
    look()
  })
}
