import { type Theme, useTheme } from '../state/theme.ts'

/** Colours of what is drawn on the map: a canvas cannot read the tokens of the page. */
export interface MapColours {
  readonly paper: string
  readonly paperSunk: string
  readonly ink: string
  readonly inkSoft: string
  readonly accent: string
  readonly danger: string
  /** Ends of the shading along the line: worst and best. */
  readonly shadeWeak: string
  readonly shadeStrong: string
  readonly focus: string
  readonly contour: string
  readonly contourInk: string
  readonly water: string
  readonly waterInk: string
  readonly road: string
  readonly roadCasing: string
  readonly building: string
  readonly fence: string
  /** Ground by its kind; kinds that are not named lie on plain paper. */
  readonly ground: Readonly<Record<string, string>>
}

const COLOURS: Record<Theme, MapColours> = {
  light: {
    paper: '#f7f4ec',
    paperSunk: '#ece7da',
    ink: '#23251f',
    inkSoft: '#5a5a4c',
    accent: '#a8115a',
    danger: '#9c2a12',
    shadeWeak: '#f3e5e6',
    shadeStrong: '#d9709f',
    focus: '#15598f',
    contour: '#ddd2ba',
    contourInk: '#8f8263',
    water: '#c5d9de',
    waterInk: '#3f6975',
    road: '#fffdf7',
    roadCasing: '#b5ab93',
    building: '#cfc4ac',
    fence: '#cbc0a6',
    ground: {
      rangeland: '#f7f4ec',
      sagebrush: '#f0efe0',
      pine: '#e6ead8',
      bottomland: '#eaecd9',
      pivot: '#edeed8',
      irrigated: '#eeefdb',
      'hay-meadow': '#f1efd6',
      town: '#f0e9da',
      'gravel-pit': '#e4dccb',
      substation: '#e0d8c5',
    },
  },
  dark: {
    paper: '#1b1c18',
    paperSunk: '#141511',
    ink: '#ebe7da',
    inkSoft: '#b3ae9d',
    accent: '#f27fb4',
    danger: '#ff9a80',
    shadeWeak: '#30222a',
    shadeStrong: '#9b4672',
    focus: '#8cc4f2',
    contour: '#2f2e27',
    contourInk: '#7d7968',
    water: '#23373d',
    waterInk: '#8fb4be',
    road: '#3a3932',
    roadCasing: '#504e45',
    building: '#3d3a31',
    fence: '#3a382f',
    ground: {
      rangeland: '#1b1c18',
      sagebrush: '#1f2119',
      pine: '#1d241b',
      bottomland: '#20261c',
      pivot: '#22271b',
      irrigated: '#20251a',
      'hay-meadow': '#25251a',
      town: '#24231d',
      'gravel-pit': '#2a2721',
      substation: '#2d2a23',
    },
  },
}

export function useMapColours(): MapColours {
  return COLOURS[useTheme()]
}
