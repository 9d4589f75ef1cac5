import { shareValue, useShared } from '../device/shared-value.ts'
import { addressOfSelection, type Selection, selectionOfAddress } from './address.ts'

const store = shareValue<Selection>(selectionOfAddress(window.location.search))

window.addEventListener('popstate', () => {
  store.set(selectionOfAddress(window.location.search))
})

/** Going back leads over these; the others replace the present address. */
const STEPS: readonly (keyof Selection)[] = [
  'feeder',
  'person',
  'proposal',
  'study',
  'choice',
  'view',
  'paper',
]

const OF_ONE_FEEDER = {
  pole: null,
  case: null,
  proposal: null,
  study: null,
  choice: null,
  moved: null,
} as const

/** A paper is one of the view that it was opened from. */
const OF_ONE_VIEW = { paper: null } as const

/**
 * Changes what is selected, on every screen and in the address. Another feeder lets
 * go of the pole, the case and the proposal, which belong to the old one, and another
 * view of the paper.
 */
export function select(change: Partial<Selection>): void {
  const before = store.get()
  const isOtherFeeder = change.feeder !== undefined && change.feeder !== before.feeder
  const isOtherView = change.view !== undefined && change.view !== before.view
  const freed = {
    ...(isOtherFeeder && OF_ONE_FEEDER),
    ...((isOtherFeeder || isOtherView) && OF_ONE_VIEW),
  }
  const after = { ...before, ...freed, ...change }
  if (isSame(before, after)) return
  const isStep = before.feeder !== null && STEPS.some((key) => before[key] !== after[key])
  const { pathname, search, hash } = window.location
  // The hash holds the view of the map, which is of no use for another feeder.
  const view = isOtherFeeder && before.feeder !== null ? '' : hash
  const address = pathname + addressOfSelection(after, search) + view
  if (isStep) window.history.pushState(null, '', address)
  else window.history.replaceState(null, '', address)
  store.set(after)
}

/** The selection as it stands, outside of rendering. */
export const currentSelection = store.get

export function useSelection(): Selection {
  return useShared(store)
}

function isSame(a: Selection, b: Selection): boolean {
  return (Object.keys(a) as (keyof Selection)[]).every((key) => a[key] === b[key])
}
