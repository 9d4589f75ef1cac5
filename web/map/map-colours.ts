import { type Theme, useTheme } from '../state/theme.ts'

/** Colours of what is drawn on the map: canvas cannot read the tokens of the page. */
export interface MapColours {
  readonly paper: string
  readonly paperSunk: string
  readonly ink: string
  readonly inkSoft: string
  readonly accent: string
  readonly danger: string
  readonly focus: string
  readonly contour: string
  readonly water: string
  readonly waterInk: string
  readonly road: string
  readonly roadCasing: string
  readonly building: string
  readonly town: string
  readonly field: string
  readonly wood: string
  readonly fence: string
}

const COLOURS: Record<Theme, MapColours> = {
  light: {
    paper: '#f7f4ec',
    paperSunk: '#ece7da',
    ink: '#23251f',
    inkSoft: '#565749',
    accent: '#a8115a',
    danger: '#9c2a12',
    focus: '#15598f',
    contour: '#d9cdb2',
    water: '#c9dbe0',
    waterInk: '#4c7480',
    road: '#fffdf6',
    roadCasing: '#b9b09a',
    building: '#d2c8b2',
    town: '#efe8d8',
    field: '#eeeedb',
    wood: '#e4e6d2',
    fence: '#c4b99f',
  },
  dark: {
    paper: '#1b1c18',
    paperSunk: '#141511',
    ink: '#ebe7da',
    inkSoft: '#b3ae9d',
    accent: '#f27fb4',
    danger: '#ff9a80',
    focus: '#8cc4f2',
    contour: '#33322a',
    water: '#22343a',
    waterInk: '#86aab4',
    road: '#3b3a33',
    roadCasing: '#55534a',
    building: '#3a372f',
    town: '#24241e',
    field: '#20221a',
    wood: '#1f251d',
    fence: '#45423a',
  },
}

export function useMapColours(): MapColours {
  return COLOURS[useTheme()]
}
