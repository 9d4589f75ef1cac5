import type { BirdSettings } from '#domain/avian/bird-settings.ts'

/** What each part of the settings is given. */
export interface SectionProps {
  readonly settings: BirdSettings
  readonly onChange: (change: Partial<BirdSettings>) => void
}
