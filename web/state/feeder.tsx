import { createContext, type ReactNode, use, useMemo } from 'react'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { type FeederModel, modelFeeder } from './feeder-model.ts'

export interface OpenFeeder extends FeederModel {
  readonly version: number
}

const FeederContext = createContext<OpenFeeder | null>(null)

interface Props {
  readonly feeder: Feeder
  readonly version: number
  readonly children: ReactNode
}

/** Gives the open feeder, with its look-ups, to all screens below. */
export function FeederProvider({ feeder, version, children }: Props) {
  const open = useMemo(() => ({ ...modelFeeder(feeder), version }), [feeder, version])
  return <FeederContext value={open}>{children}</FeederContext>
}

/** The open feeder. Desks, map layers and strips are only drawn where there is one. */
export function useFeeder(): OpenFeeder {
  const open = use(FeederContext)
  if (!open) throw new Error('Expected a feeder to be open around this screen.')
  return open
}
