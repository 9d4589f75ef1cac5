import type { EquipmentKind } from '#domain/feeder/equipment.ts'

export type SymbolName =
  | EquipmentKind
  | 'switch-open'
  | 'regulator-bypassed'
  | 'source'
  | 'load'
  | 'pole-one'
  | 'pole-arm'
  | 'pole-end'

const circle = (x: number, y: number, r: number) =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`
const box = (x: number, y: number, width: number, height: number) =>
  `M${x} ${y}h${width}v${height}h${-width}z`

const TWO_COILS = `${circle(9, 12, 5)}${circle(15, 12, 5)}M1.5 12H4M20 12h2.5`

/**
 * Paths on a 24-unit grid, stroked 1.5 wide, the line running from left to right. After IEC 60617
 * and IEEE 315 where these have a symbol (from memory): two coils with an arrow across for a
 * regulating transformer, two plates for a capacitor, a lifted blade for an open switch, an arrow
 * in a box to ground for an arrester, a bar in series for a fuse, a box for a circuit breaker, a
 * wave in a circle for an alternating source. Of a bypassed regulator the line runs past the coils,
 * which no lead joins to it. The others are this project's own.
 */
export const SYMBOL_PATHS: Readonly<Record<SymbolName, string>> = {
  regulator: `${TWO_COILS}M5 20 19 4M19 4l-4.6 1.6M19 4l-.8 4.8`,
  'regulator-bypassed': `M1.5 14.5h1.7V4h17.6v10.5h1.7${circle(10, 14.5, 4)}${circle(14, 14.5, 4)}M6.8 21 17 8.2M17 8.2l-3.6 1.3M17 8.2l-.6 3.8`,
  transformer: TWO_COILS,
  capacitor: 'M1.5 12h8M9.5 5v14M14.5 5v14M14.5 12h8',
  switch: `M1.5 12H5M19 12h3.5M7.5 12h9${circle(6.2, 12, 1.3)}${circle(17.8, 12, 1.3)}`,
  'switch-open': `M1.5 12H5M19 12h3.5M7.2 11.2 16.4 5${circle(6.2, 12, 1.3)}${circle(17.8, 12, 1.3)}`,
  recloser: `M1.5 12H5M19 12h3.5${box(5, 5, 14, 14)}M9 13.5a3.4 3.4 0 1 0 1-4M10.4 6.9 9.8 9.8l2.9.4`,
  fuse: `M1.5 12h21${box(6, 8.5, 12, 7)}`,
  solar: `${box(4, 5, 16, 14)}M4 12h16M9.3 5v14M14.7 5v14`,
  generator: `${circle(12, 12, 8)}M15.2 9.4a4 4 0 1 0 .6 3.6h-3.4`,
  cutout: 'M12 2v4M12 18v4M9 6h6M9 18h6M10 7.5 14 16.5M14 7.5v9',
  arrester: `M12 1.5V5${box(8, 5, 8, 11)}M12 5v6.5M9.8 9.5 12 12l2.2-2.5M12 16v3M8 19h8M9.8 21h4.4`,
  riser: 'M12 2v16M8 14l4 4 4-4M6 21h12',
  meter: `${circle(12, 12, 8)}M8.5 15.5v-6l3.5 4 3.5-4v6`,
  guy: 'M5 3v18M5 4l14 17M15 21h7',
  source: `${circle(12, 12, 8.5)}M7 12c1.6-4.6 3.4-4.6 5 0s3.4 4.6 5 0`,
  load: 'M12 3v12M7.5 11.5 12 19l4.5-7.5z',
  'pole-one': `${circle(12, 12, 3)}`,
  'pole-arm': `${circle(12, 12, 2.6)}M12 2.5v6.9M12 14.6v6.9M9.8 4h4.4M9.8 20h4.4`,
  'pole-end': `${circle(12, 12, 2.6)}M10.6 2.5v19M13.4 2.5v19`,
}

export const SYMBOL_WORDS: Readonly<Record<Exclude<SymbolName, `pole-${string}`>, string>> = {
  regulator: 'Voltage regulator',
  'regulator-bypassed': 'Voltage regulator, bypassed',
  transformer: 'Transformer',
  capacitor: 'Capacitor',
  switch: 'Switch, closed',
  'switch-open': 'Switch, open',
  recloser: 'Recloser',
  fuse: 'Fuse',
  solar: 'Solar plant',
  generator: 'Generator',
  cutout: 'Cutout',
  arrester: 'Arrester',
  riser: 'Riser',
  meter: 'Meter',
  guy: 'Guy',
  source: 'Source',
  load: 'Load',
}
