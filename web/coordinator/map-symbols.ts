/**
 * Symbols of the coordinator's map, drawn for this project on a grid of 24. Shape tells the kind,
 * so that no meaning hangs on colour alone.
 */
export const SYMBOL_PATHS = {
  'bird-bridgeable': { path: 'M12 3 22 20.5H2Z', isFilled: true },
  'bird-unknown': { path: 'M5 5H19V19H5Z', isFilled: false },
  'bird-sufficient': { path: 'M12 7A5 5 0 1 1 12 17A5 5 0 1 1 12 7Z', isFilled: true },
  'nest-in-use': { path: 'M2 11H22L18 18H6ZM9 8A3 3 0 1 1 15 8', isFilled: true },
  'nest-not-in-use': { path: 'M2 11H22L18 18H6Z', isFilled: false },
  'incident-electrocution': { path: 'M13 2 5 13H11L9 22 19 10H13Z', isFilled: true },
  'incident-other': { path: 'M5 5 19 19M19 5 5 19', isFilled: false },
  'item-planned': { path: 'M5 5H19V19H5Z', isFilled: false },
  'item-on': { path: 'M4 12 10 18 20 6', isFilled: false },
  'item-failed': { path: 'M5 5 19 19M19 5 5 19', isFilled: false },
  'item-removed': { path: 'M5 12H19', isFilled: false },
} as const

export type SymbolName = keyof typeof SYMBOL_PATHS
