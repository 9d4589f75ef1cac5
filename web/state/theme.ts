import { shareValue, useShared } from '../device/shared-value.ts'

export type ThemeChoice = 'system' | 'light' | 'dark'
export type Theme = 'light' | 'dark'

const STORED = 'crossarm.theme'
const system = window.matchMedia('(prefers-color-scheme: dark)')

function storedChoice(): ThemeChoice {
  const kept = window.localStorage.getItem(STORED)
  return kept === 'light' || kept === 'dark' ? kept : 'system'
}

function themeOf(choice: ThemeChoice): Theme {
  if (choice !== 'system') return choice
  return system.matches ? 'dark' : 'light'
}

const choice = shareValue<ThemeChoice>(storedChoice())
const theme = shareValue<Theme>(themeOf(choice.get()))

function apply(): void {
  theme.set(themeOf(choice.get()))
  document.documentElement.dataset.theme = theme.get()
}

/** Puts the theme on the page and follows the system as long as the person chose nothing. */
export function startTheme(): void {
  apply()
  system.addEventListener('change', apply)
}

export function chooseTheme(next: ThemeChoice): void {
  window.localStorage.setItem(STORED, next)
  choice.set(next)
  apply()
}

export function useThemeChoice(): ThemeChoice {
  return useShared(choice)
}

export function useTheme(): Theme {
  return useShared(theme)
}
