import { shareValue, useShared } from '../../device/shared-value.ts'

/** What of this desk the map draws; each is a row of the legend that can be switched. */
export interface ShownLayers {
  readonly poles: boolean
  readonly exposure: boolean
  readonly items: boolean
  readonly nests: boolean
  readonly finds: boolean
  readonly habitat: boolean
  readonly round: boolean
}

const store = shareValue<ShownLayers>({
  poles: true,
  exposure: true,
  items: true,
  nests: true,
  finds: true,
  habitat: true,
  round: true,
})

export function showLayer(layer: keyof ShownLayers, isShown: boolean): void {
  store.set({ ...store.get(), [layer]: isShown })
}

export function useShownLayers(): ShownLayers {
  return useShared(store)
}
