/**
 * Small things that a person typed or chose on this device, in the browser's local storage: what
 * each kind is called, one and several, when it goes. Null for what goes along with another kind.
 */
const KINDS = {
  'step-draft': ['step filled in and not entered', 'steps filled in and not entered'],
  'remark-draft': ['remark written and not entered', 'remarks written and not entered'],
  'as-left-draft': [
    'record “as left” begun and not entered',
    'records “as left” begun and not entered',
  ],
  'as-left-base': null,
  'read-off': ['set of amps and taps read off', 'sets of amps and taps read off'],
  kit: ['kit list that was ticked off', 'kit lists that were ticked off'],
  'loop-ohm': ['loop impedance', 'loop impedances'],
  'crew-names': ['list of names that sign', 'lists of names that sign'],
  'work-choices': null,
} as const
export type KeptKind = keyof typeof KINDS

const START = 'crossarm.of'
/** Before values belonged to a person their names began with the kind. */
const WITHOUT_PERSON = new RegExp(`^crossarm\\.(${Object.keys(KINDS).join('|')}):`)

const startOf = (personId: string): string => `${START}:${personId}:`

function nameOf(personId: string, kind: KeptKind, key: string): string {
  return `${startOf(personId)}${kind}:${key}`
}

/** The text that was kept; null where there is none, or the browser lets the page keep nothing. */
export function keptText(personId: string, kind: KeptKind, key: string): string | null {
  return anyhow(null, (storage) => {
    takeOver(storage, personId)
    return storage.getItem(nameOf(personId, kind, key))
  })
}

/** @param text null lets go of it */
export function keepText(personId: string, kind: KeptKind, key: string, text: string | null): void {
  anyhow(undefined, (storage) => {
    const name = nameOf(personId, kind, key)
    if (text === null) storage.removeItem(name)
    else storage.setItem(name, text)
  })
}

/** What of a person's would be gone if they left the device, in words: "2 steps filled in and not entered". */
export function keptInWords(personId: string): string[] {
  const names = anyhow([], (storage) => namesIn(storage, startOf(personId)))
  return (Object.keys(KINDS) as KeptKind[]).flatMap((kind) => {
    const count = names.filter((name) => name.startsWith(nameOf(personId, kind, ''))).length
    const words = KINDS[kind]
    return count === 0 || !words ? [] : [`${count} ${count === 1 ? words[0] : words[1]}`]
  })
}

export function dropKeptOf(personId: string): void {
  anyhow(undefined, (storage) => {
    for (const name of namesIn(storage, startOf(personId))) storage.removeItem(name)
  })
}

/** What earlier versions kept for nobody in particular goes to whoever comes first; mostly it is theirs. */
function takeOver(storage: Storage, personId: string): void {
  for (const name of namesIn(storage, 'crossarm.')) {
    const kept = WITHOUT_PERSON.test(name) ? storage.getItem(name) : null
    if (kept === null) continue
    const own = startOf(personId) + name.slice('crossarm.'.length)
    if (storage.getItem(own) === null) storage.setItem(own, kept)
    storage.removeItem(name)
  }
}

function namesIn(storage: Storage, start: string): string[] {
  const names = Array.from({ length: storage.length }, (_, index) => storage.key(index) ?? '')
  return names.filter((name) => name.startsWith(start))
}

/** Where the storage is full or closed to pages, what is typed lives as long as the page. */
function anyhow<Answer>(otherwise: Answer, work: (storage: Storage) => Answer): Answer {
  try {
    return work(window.localStorage)
  } catch {
    return otherwise
  }
}
