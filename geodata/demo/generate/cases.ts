import type { HeaderDraft } from './feeder-draft.ts'

/** Hours add to a year of 8,760. */
export const CASES: HeaderDraft['cases'] = [
  {
    id: 'peak',
    name: 'Summer evening peak',
    loadFactor: 1,
    classFactors: {},
    generationFactor: 0.08,
    hoursPerYear: 1_100,
  },
  {
    id: 'light',
    name: 'Spring night',
    loadFactor: 0.22,
    classFactors: { irrigation: 0, 'gravel-pit': 0.02, commercial: 0.18, 'stock-well': 0.3 },
    generationFactor: 0,
    hoursPerYear: 4_960,
  },
  {
    id: 'solar-noon',
    name: 'May noon',
    loadFactor: 0.34,
    classFactors: { irrigation: 0.12, 'gravel-pit': 0.6, commercial: 0.5 },
    generationFactor: 0.95,
    hoursPerYear: 2_700,
  },
]
