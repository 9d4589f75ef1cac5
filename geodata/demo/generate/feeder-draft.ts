import type { z } from 'zod'
import type { Equipment, Regulator, Switch, Transformer } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'

/** A feeder as it is written: what equals the default of the format may be left out. */
export type FeederDraft = z.input<typeof Feeder>
export type PoleDraft = FeederDraft['poles'][number]
export type SpanDraft = FeederDraft['spans'][number]
export type LoadDraft = FeederDraft['loads'][number]
export type HeaderDraft = FeederDraft['header']
export type LineTypeDraft = HeaderDraft['lineTypes'][number]
export type EquipmentDraft = z.input<typeof Equipment>
export type RegulatorDraft = z.input<typeof Regulator>
export type SwitchDraft = z.input<typeof Switch>
export type TransformerDraft = z.input<typeof Transformer>
