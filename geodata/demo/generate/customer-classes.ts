/**
 * How each class of customer draws. Shares and power factors are planning assumptions of this
 * invented place, in the range that textbooks give; none is a published figure.
 */
export interface CustomerClass {
  readonly powerFactor: number
  readonly constantPower: number
  readonly constantCurrent: number
  readonly constantImpedance: number
  /** Mean over the year as a share of the peak. */
  readonly loadFactor: number
}

export const CUSTOMER_CLASSES = {
  residential: {
    powerFactor: 0.96,
    constantPower: 0.45,
    constantCurrent: 0.15,
    constantImpedance: 0.4,
    loadFactor: 0.36,
  },
  ranch: {
    powerFactor: 0.93,
    constantPower: 0.5,
    constantCurrent: 0.2,
    constantImpedance: 0.3,
    loadFactor: 0.32,
  },
  'stock-well': {
    powerFactor: 0.86,
    constantPower: 0.8,
    constantCurrent: 0.1,
    constantImpedance: 0.1,
    loadFactor: 0.3,
  },
  irrigation: {
    powerFactor: 0.88,
    constantPower: 0.8,
    constantCurrent: 0.1,
    constantImpedance: 0.1,
    loadFactor: 0.19,
  },
  commercial: {
    powerFactor: 0.92,
    constantPower: 0.6,
    constantCurrent: 0.2,
    constantImpedance: 0.2,
    loadFactor: 0.42,
  },
  'gravel-pit': {
    powerFactor: 0.84,
    constantPower: 0.8,
    constantCurrent: 0.1,
    constantImpedance: 0.1,
    loadFactor: 0.22,
  },
} as const satisfies Record<string, CustomerClass>

export type CustomerClassName = keyof typeof CUSTOMER_CLASSES
